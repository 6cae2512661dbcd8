using System.Collections.Immutable;
using ServiceRules.Application.Ledger;
using ServiceRules.Rules.Diagnostics;

namespace ServiceRules.Application.Waiving;

/// <summary>What came of entering or withdrawing a waiver.</summary>
public abstract record WaiverOutcome
{
    private WaiverOutcome() { }

    /// <summary>It counts from now on, or no more.</summary>
    public sealed record Done(KeptWaiver Waiver) : WaiverOutcome;

    /// <summary>It counted already, or was withdrawn already.</summary>
    public sealed record Stood(KeptWaiver Waiver) : WaiverOutcome;

    /// <summary>The rules, the registers or another waiver are against it.</summary>
    public sealed record Unfit(ImmutableArray<Diagnostic> Problems) : WaiverOutcome;

    /// <summary>There is none of this number at the site.</summary>
    public sealed record Unknown : WaiverOutcome;

    /// <summary>It may not be filed.</summary>
    public sealed record Declined(FilingRefusal Refusal) : WaiverOutcome;
}
