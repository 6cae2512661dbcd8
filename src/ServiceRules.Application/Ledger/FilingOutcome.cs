using System.Collections.Immutable;
using ServiceRules.Formats.Json;

namespace ServiceRules.Application.Ledger;

/// <summary>What came of a filing.</summary>
public abstract record FilingOutcome
{
    private FilingOutcome() { }

    /// <summary>Everything stands in the log, durably, under a signed checkpoint that is also kept outside.</summary>
    /// <param name="Entries">The parts in their order; those that stood already keep their old places.</param>
    /// <param name="Head">The checkpoint that covers them.</param>
    public sealed record Filed(ImmutableArray<Placed> Entries, LedgerHead Head) : FilingOutcome
    {
        /// <summary>People whom the log names for the first time, where it has forgotten somebody: it may be the same.</summary>
        public ImmutableArray<string> FirstNamed { get; init; } = [];

        public bool IsNew => Entries.Any(placed => placed.IsNew);
    }

    /// <summary>Nothing was filed.</summary>
    public sealed record Refused(FilingRefusal Refusal) : FilingOutcome;

    /// <summary>Nothing was filed: the document cannot be read.</summary>
    public sealed record Unreadable(ProblemReport Problems) : FilingOutcome;

    /// <summary>Nothing was filed: since this log was opened, its store has become another.</summary>
    public sealed record Broken(LedgerFault Fault) : FilingOutcome;

    /// <summary>One part of a filing at its place.</summary>
    public sealed record Placed(FiledEntry Entry, bool IsNew);
}
