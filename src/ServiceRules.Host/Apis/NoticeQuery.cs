using System.ComponentModel;
using System.Globalization;
using Microsoft.AspNetCore.Http;
using ServiceRules.Application.Rows;
using ServiceRules.Host.Notices;
using ServiceRules.Host.Problems;

namespace ServiceRules.Host.Apis;

/// <summary>Which notices are asked for, and which page: as the query says it.</summary>
internal sealed record NoticeQuery
{
    private static readonly string[] Names = ["state", "limit", "after"];

    [Description("given-up, waiting, delivered or nothing-left; else given-up")]
    public string? State { get; init; }

    [Description("rows of a page, 1 to 1000; else 50")]
    public string? Limit { get; init; }

    [Description("where the page before ended, as its `next` says")]
    public string? After { get; init; }

    public int Most => Limit is null ? new RowPaging().Most : int.Parse(Limit, CultureInfo.InvariantCulture);

    public IResult? Fault(HttpRequest request, NoticeDesk desk) =>
        request.Query.Keys.FirstOrDefault(name => !Names.Contains(name, StringComparer.OrdinalIgnoreCase))
            is { } odd
            ? Wrong(odd, "there is nothing of that name to ask for", string.Join(", ", Names))
        : request.Query.FirstOrDefault(one => one.Value.Count > 1) is { Key: { } twice }
            ? Wrong(twice, "it stands twice", "once")
        : State is not null && NoticeWords.Read(State) is null
            ? Wrong("state", Found(State), string.Join(", ", NoticeWords.All))
        : Limit is not null
        && !(
            int.TryParse(Limit, NumberStyles.None, CultureInfo.InvariantCulture, out var rows)
            && rows is >= 1 and <= RowPaging.MostRows
        )
            ? Wrong("limit", Found(Limit), $"1 to {RowPaging.MostRows}")
        : After is not null && !desk.IsName(After)
            ? Wrong("after", Found(After), "what `next` of the page before says")
        : null;

    private static string Found(string given) => $"found `{Shortened.To(given, 64)}`";

    private static IResult Wrong(string name, string what, string accepted) =>
        Complaint.Of(ProblemKind.BadRequest, $"{Shortened.To(name, 64)}: {what}", accepted);
}
