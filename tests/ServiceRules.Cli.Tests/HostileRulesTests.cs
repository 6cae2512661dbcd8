using System.Globalization;
using ServiceRules.TestKit;

namespace ServiceRules.Cli.Tests;

/// <summary>Folders of rules that no shop wrote, given to the product: told, in bounded time and memory, and nothing is judged by them.</summary>
public sealed class HostileRulesTests : IDisposable
{
    private static readonly Dictionary<string, Action<string>> Folders = new(StringComparer.Ordinal)
    {
        ["nothing"] = _ => { },
        ["a name with terminal escapes and a line break"] = folder =>
            File.WriteAllText(Path.Combine(folder, "a\u001b[2J\nsound.rules.json"), "{}"),
        ["lists within lists"] = folder =>
            File.WriteAllText(Path.Combine(folder, "a.rules.json"), new string('[', 1_000_000)),
        ["seven files of eight mebibytes"] = folder =>
        {
            for (var at = 0; at < 7; at++)
            {
                File.WriteAllText(
                    Path.Combine(folder, string.Create(CultureInfo.InvariantCulture, $"{at}.rules.json")),
                    "{\"format\": \"rules/1\", \"rules\": ["
                        + string.Join(
                            ',',
                            Enumerable.Repeat(
                                "{\"id\": \"aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa\"}",
                                130_000
                            )
                        )
                        + "]}"
                );
            }
        },
        ["ten thousand files"] = folder =>
        {
            for (var at = 0; at < 10_000; at++)
            {
                using var file = File.Create(
                    Path.Combine(folder, string.Create(CultureInfo.InvariantCulture, $"{at}.json"))
                );
            }
        },
        ["a link to the whole machine"] = folder =>
            Directory.CreateSymbolicLink(Path.Combine(folder, "all"), "/"),
    };

    private readonly Product _product = new Product().Alone();

    public static TheoryData<string> Names => [.. Folders.Keys];

    public void Dispose() => _product.Dispose();

    [Theory]
    [MemberData(nameof(Names))]
    public void Check_HostileFolder_IsToldWithinBounds(string what)
    {
        var folder = _product.At("rules");
        Directory.CreateDirectory(folder);
        Folders[what](folder);

        var outcome = _product.Run("rules", "check", "--rules", folder);

        Manners.Hold(outcome);
        Assert.True(outcome.ExitCode == 1, outcome.ToString());
        Assert.EndsWith("not fit to judge by\n", outcome.StandardOutput, StringComparison.Ordinal);
        Assert.DoesNotContain(
            outcome.StandardOutput,
            character => char.IsControl(character) && character != '\n'
        );
        Assert.DoesNotContain("\nsound", outcome.StandardOutput, StringComparison.Ordinal);
    }

    [Fact]
    public void Check_DayThatIsNone_IsRefused()
    {
        var outcome = _product.Run("rules", "check", "--on", "2026-02-30");

        Manners.HoldForRefusal(outcome);
        Assert.Contains("`2026-02-30` is no day", outcome.StandardError, StringComparison.Ordinal);
    }
}
