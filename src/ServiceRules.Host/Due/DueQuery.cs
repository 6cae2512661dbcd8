using System.ComponentModel;
using System.Globalization;
using Microsoft.AspNetCore.Http;
using ServiceRules.Application.Rows;
using ServiceRules.Host.Problems;

namespace ServiceRules.Host.Due;

/// <summary>What falls due within which time, and which page: as the query says it.</summary>
internal sealed record DueQuery
{
    /// <summary>Ten years: no calibration is believed for longer than five.</summary>
    public const int MostDays = 3660;

    private static readonly string[] Names = ["site", "within", "limit", "after"];

    [Description("the site, where there are several; else all of whoever asks")]
    public string? Site { get; init; }

    [Description("due within so many days, 0 to 3660, or overdue; else 30")]
    public string? Within { get; init; }

    [Description("rows of a page, 1 to 1000; else 50")]
    public string? Limit { get; init; }

    [Description("where the page before ended, as its `next` says")]
    public string? After { get; init; }

    public int Days => Number(Within, 0, MostDays) ?? DueDesk.Ahead;

    public int Most => Number(Limit, 1, RowPaging.MostRows) ?? new RowPaging().Most;

    public string? Beyond => After is null ? null : DuePlace.Read(After);

    public IResult? Fault(HttpRequest request) =>
        request.Query.Keys.FirstOrDefault(name => !Names.Contains(name, StringComparer.OrdinalIgnoreCase))
            is { } odd
            ? Wrong(odd, "there is nothing of that name to ask for", string.Join(", ", Names))
        : request.Query.FirstOrDefault(one => one.Value.Count > 1) is { Key: { } twice }
            ? Wrong(twice, "it stands twice", "once")
        : Within is not null && Number(Within, 0, MostDays) is null
            ? Wrong("within", Found(Within), $"0 to {MostDays}")
        : Limit is not null && Number(Limit, 1, RowPaging.MostRows) is null
            ? Wrong("limit", Found(Limit), $"1 to {RowPaging.MostRows}")
        : After is not null && DuePlace.Read(After) is null
            ? Wrong("after", Found(After), "what `next` of the page before says")
        : null;

    private static int? Number(string? text, int least, int most) =>
        int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number)
        && number >= least
        && number <= most
            ? number
            : null;

    private static string Found(string given) => $"found `{Shortened.To(given, 64)}`";

    private static IResult Wrong(string name, string what, string accepted) =>
        Complaint.Of(ProblemKind.BadRequest, $"{Shortened.To(name, 64)}: {what}", accepted);
}
