using System.Globalization;
using System.Text;
using ServiceRules.TestKit;

namespace ServiceRules.Crash.Tests;

/// <summary>
/// Records to submit, as many as are asked for: the same honest job on days far enough apart that none bears on another.
/// </summary>
internal static class Job
{
    private const int DaysApart = 6;

    private const string Id = "F-height-check";
    private const string Day = "2026-04-13";
    private const string Reading = "3.82 mm";

    private static readonly DateOnly First = new(1991, 1, 1);

    private static readonly Lazy<string> Fixture = new(() =>
    {
        var text = File.ReadAllText(
            ReferenceFiles.InRepository("rules", "base", "fixtures", Id[2..] + ".record.json")
        );
        return new[] { Id, Day, Reading }.All(part => text.Contains(part, StringComparison.Ordinal))
            ? text
            : throw new InvalidOperationException("the fixture has changed");
    });

    public static string IdOf(int number) => string.Create(CultureInfo.InvariantCulture, $"K-{number}");

    public static byte[] Of(int number) => Of(number, Reading);

    /// <summary>The same with one reading corrected.</summary>
    public static byte[] Corrected(int number) => Of(number, "3.83 mm");

    /// <summary>The same with a reading that holds it.</summary>
    public static byte[] Held(int number) => Of(number, "4.90 mm");

    private static byte[] Of(int number, string reading) =>
        Encoding.UTF8.GetBytes(
            Fixture
                .Value.Replace(Id, IdOf(number), StringComparison.Ordinal)
                .Replace(
                    Day,
                    First.AddDays(number * DaysApart).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
                    StringComparison.Ordinal
                )
                .Replace(Reading, reading, StringComparison.Ordinal)
        );
}
