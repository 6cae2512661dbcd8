using System.Collections.Immutable;

namespace ServiceRules.Application.Ledger;

/// <summary>What came of putting contents back.</summary>
/// <param name="PutBack">What was lost and stands again, each by its entry.</param>
/// <param name="StillLost">What is lost still.</param>
public sealed record ContentsMended(ImmutableArray<string> PutBack, ImmutableArray<LedgerFault> StillLost)
{
    /// <summary>
    /// Whether nothing else was put back, since what is lost still says what was removed on purpose: the copy may have that.
    /// </summary>
    public bool IsHeldBack { get; init; }

    internal ContentsMended And(ContentsMended further) =>
        new([.. PutBack, .. further.PutBack], further.StillLost);
}
