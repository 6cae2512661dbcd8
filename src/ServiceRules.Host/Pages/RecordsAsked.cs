using System.Globalization;
using Microsoft.AspNetCore.Http;
using ServiceRules.Application.Rows;
using ServiceRules.Host.Problems;

namespace ServiceRules.Host.Pages;

/// <summary>What a form asked of the list of records, as it was written there.</summary>
public sealed record RecordsAsked
{
    private const string DayForm = "yyyy-MM-dd";
    private const int ShownLength = 64;

    private static readonly string[] Names =
    [
        "record",
        "machine",
        "unit",
        "from",
        "until",
        "disposition",
        "after",
    ];

    public string Record { get; private init; } = "";

    public string Machine { get; private init; } = "";

    public string Unit { get; private init; } = "";

    public string From { get; private init; } = "";

    public string Until { get; private init; } = "";

    public string Disposition { get; private init; } = "";

    /// <summary>What of it was not understood; nothing is shown then.</summary>
    public IReadOnlyList<string> Problems { get; private init; } = [];

    internal static RecordsAsked Of(IQueryCollection query)
    {
        var asked = new RecordsAsked
        {
            Record = query["record"].ToString().Trim(),
            Machine = query["machine"].ToString().Trim(),
            Unit = query["unit"].ToString().Trim(),
            From = query["from"].ToString().Trim(),
            Until = query["until"].ToString().Trim(),
            Disposition = query["disposition"].ToString(),
        };
        return asked with { Problems = [.. asked.Wrong(query)] };
    }

    internal RecordFilter Filter =>
        new()
        {
            Containing = Given(Record),
            MachineOfAnyCase = Given(Machine),
            UnitOfAnyCase = Given(Unit),
            From = Day(From),
            Until = Day(Until),
            Disposition = Given(Disposition),
        };

    /// <summary>The same, behind a row.</summary>
    internal string Behind(string after) =>
        "/records"
        + QueryString.Create(
            new (string Name, string Value)[]
            {
                ("record", Record),
                ("machine", Machine),
                ("unit", Unit),
                ("from", From),
                ("until", Until),
                ("disposition", Disposition),
                ("after", after),
            }
                .Where(one => one.Value.Length > 0)
                .Select(one => KeyValuePair.Create(one.Name, (string?)one.Value))
        );

    private IEnumerable<string> Wrong(IQueryCollection query)
    {
        foreach (
            var name in query.Keys.Where(name => !Names.Contains(name, StringComparer.OrdinalIgnoreCase))
        )
        {
            yield return $"There is no `{Shortened.To(name, ShownLength)}` to ask for; accepted: {string.Join(", ", Names)}.";
        }

        foreach (var day in new[] { From, Until }.Where(day => day.Length > 0 && Day(day) is null))
        {
            yield return $"`{Shortened.To(day, ShownLength)}` is no day; accepted: one such as 2026-04-13.";
        }

        if (Day(From) is { } from && Day(Until) is { } until && until < from)
        {
            yield return $"No day is from {From} until {Until}; accepted: a last day that is not before the first.";
        }

        if (Disposition is not ("" or "release" or "hold" or "stop"))
        {
            yield return $"`{Shortened.To(Disposition, ShownLength)}` is no outcome; accepted: release, hold, stop.";
        }

        // No identity holds others, and no database needs to look.
        foreach (
            var text in new[] { Record, Machine, Unit }.Where(text =>
                !text.All(sign => sign is >= ' ' and <= '~')
            )
        )
        {
            yield return $"`{Shortened.To(text, ShownLength)}` is part of no identity; accepted: letters, digits, dots, hyphens and underscores.";
        }
    }

    private static string? Given(string text) => text.Length == 0 ? null : text;

    private static DateOnly? Day(string text) =>
        DateOnly.TryParseExact(text, DayForm, CultureInfo.InvariantCulture, DateTimeStyles.None, out var day)
            ? day
            : null;
}
