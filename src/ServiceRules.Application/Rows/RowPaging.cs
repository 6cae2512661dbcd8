namespace ServiceRules.Application.Rows;

/// <summary>Which page of an answer. Rows come in the order of the log, so that what is filed meanwhile moves no page.</summary>
public sealed record RowPaging
{
    public const int MostRows = 1000;

    /// <summary>Where the page before ended; null for the first.</summary>
    public RowPlace? Beyond { get; init; }

    /// <summary>Rows of a page at most, up to <see cref="MostRows"/>.</summary>
    public int Most { get; init; } = 50;

    /// <summary>Whether the oldest come first; otherwise the newest do.</summary>
    public bool OldestFirst { get; init; }
}
