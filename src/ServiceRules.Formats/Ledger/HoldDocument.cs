namespace ServiceRules.Formats.Ledger;

/// <summary>What is kept whatever falls due; all that is named must fit. That it is lifted names nothing.</summary>
public sealed record HoldDocument
{
    public string? Record { get; init; }

    public string? Machine { get; init; }

    /// <summary>The person whom records name.</summary>
    public string? Person { get; init; }

    /// <summary>The first day of jobs.</summary>
    public DateOnly? From { get; init; }

    /// <summary>The last day of jobs.</summary>
    public DateOnly? Until { get; init; }

    /// <summary>Whether nothing is held by it any more.</summary>
    public bool IsLifted { get; init; }

    public bool NamesNothing =>
        Record is null && Machine is null && Person is null && From is null && Until is null;
}
