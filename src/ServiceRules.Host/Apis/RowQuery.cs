using System.ComponentModel;
using System.Globalization;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Rows;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Problems;
using ServiceRules.Host.Sites;

namespace ServiceRules.Host.Apis;

/// <summary>Which records are asked for, and which page: as the query says it.</summary>
internal record RowQuery
{
    private const string DayForm = "yyyy-MM-dd";

    private static readonly string[] Dispositions = ["release", "hold", "stop"];
    private static readonly string[] States = ["open", "signed-off", "followed-up"];

    [Description("the site that judged it, by its name")]
    public string? Site { get; init; }

    [Description("the machine")]
    public string? Machine { get; init; }

    [Description("records in which this unit stands")]
    public string? Unit { get; init; }

    [Description("first day of jobs, as 2026-04-13")]
    public string? From { get; init; }

    [Description("last day of jobs")]
    public string? Until { get; init; }

    [Description("release, hold or stop")]
    public string? Disposition { get; init; }

    [Description("open, signed-off or followed-up")]
    public string? State { get; init; }

    [Description("all: versions that another one followed as well")]
    public string? Versions { get; init; }

    [Description("oldest: the oldest first; else the newest are first")]
    public string? Order { get; init; }

    [Description("rows of a page, 1 to 1000; else 50")]
    public string? Limit { get; init; }

    [Description("where the page before ended, as its `next` says")]
    public string? After { get; init; }

    /// <summary>Names that the query may have.</summary>
    protected virtual IEnumerable<string> Names =>
        [
            "site",
            "machine",
            "unit",
            "from",
            "until",
            "disposition",
            "state",
            "versions",
            "order",
            "limit",
            "after",
        ];

    /// <summary>What is asked for, of what whoever asks may see.</summary>
    public RecordFilter FilterFor(Caller caller) =>
        new()
        {
            Among = caller.Sites,
            Site = Site,
            Machine = Machine,
            Unit = Unit,
            From = Day(From),
            Until = Day(Until),
            Disposition = Disposition,
            State = State,
            AllVersions = Versions is not null,
        };

    public RowPaging Paging =>
        new()
        {
            Most = Limit is null ? new RowPaging().Most : int.Parse(Limit, CultureInfo.InvariantCulture),
            OldestFirst = Order is not null,
            Beyond = RowPlace.TryParse(After, out var place) ? place : null,
        };

    /// <summary>
    /// What is wrong with it. A name that is not known is refused: whoever misspelled one would take everything for what
    /// was asked.
    /// </summary>
    public IResult? Fault(HttpRequest request)
    {
        if (
            request.Query.Keys.FirstOrDefault(name =>
                !Names.Contains(name, StringComparer.OrdinalIgnoreCase)
            ) is
            { } odd
        )
        {
            return Wrong(odd, "there is nothing of that name to ask for", string.Join(", ", Names));
        }

        if (request.Query.FirstOrDefault(one => one.Value.Count > 1) is { Key: { } twice })
        {
            return Wrong(twice, "it stands twice", "once");
        }

        var services = request.HttpContext.RequestServices;
        return Faults().OfType<IResult>().FirstOrDefault()
            ?? services
                .GetRequiredService<ServedSites>()
                .OfList(
                    Caller.Known(request.HttpContext.User),
                    Site,
                    services.GetRequiredService<OpenLedger>()
                );
    }

    protected virtual IEnumerable<IResult?> Faults() =>
        [
            From is not null && Day(From) is null ? Wrong("from", Found(From), "a day, as 2026-04-13") : null,
            Until is not null && Day(Until) is null
                ? Wrong("until", Found(Until), "a day, as 2026-04-13")
                : null,
            Among("disposition", Disposition, Dispositions),
            Among("state", State, States),
            Among("versions", Versions, ["all"]),
            Among("order", Order, ["oldest"]),
            Limit is not null
            && !(
                int.TryParse(Limit, NumberStyles.None, CultureInfo.InvariantCulture, out var rows)
                && rows is >= 1 and <= RowPaging.MostRows
            )
                ? Wrong("limit", Found(Limit), $"1 to {RowPaging.MostRows}")
                : null,
            After is not null && !RowPlace.TryParse(After, out _)
                ? Wrong("after", Found(After), "what `next` of the page before says")
                : null,
        ];

    protected static IResult? Among(string name, string? given, string[] words) =>
        given is null || words.Contains(given, StringComparer.Ordinal)
            ? null
            : Wrong(name, Found(given), string.Join(", ", words));

    private static DateOnly? Day(string? text) =>
        DateOnly.TryParseExact(text, DayForm, CultureInfo.InvariantCulture, DateTimeStyles.None, out var day)
            ? day
            : null;

    private static string Found(string given) => $"found `{Shortened.To(given, 64)}`";

    private static IResult Wrong(string name, string what, string accepted) =>
        Complaint.Of(ProblemKind.BadRequest, $"{Shortened.To(name, 64)}: {what}", accepted);
}
