using System.Collections.Immutable;

namespace ServiceRules.Application.Rows;

/// <summary>Which records are asked for by what they show. Only newest versions answer.</summary>
/// <param name="What">What they show something of.</param>
/// <param name="Keys">Of which ones; any of them.</param>
public sealed record ShownFilter(ShownKind What, ImmutableArray<string> Keys)
{
    /// <summary>The most that one question answers: many times what a shop does in the days asked for.</summary>
    public const int MostRecords = 500;

    /// <summary>The longest that one job goes on: what began earlier is not looked through for what ended later.</summary>
    public const int LongestJobDays = 30;

    /// <summary>The site whose registers judged them; those of which it is not known any more answer as well.</summary>
    public required string Site { get; init; }

    /// <summary>Whether those of which the site is not known any more stay out: they may be of another one.</summary>
    public bool IsKnownAlone { get; init; }

    /// <summary>They speak of this day or a later one.</summary>
    public DateOnly? From { get; init; }

    /// <summary>They speak of this day or an earlier one.</summary>
    public DateOnly? Until { get; init; }

    /// <summary>Whether those that began earliest come first; otherwise those that began last do.</summary>
    public bool EarliestFirst { get; init; }

    public int Most { get; init; } = MostRecords;
}
