using ServiceRules.Application.Ledger;

namespace ServiceRules.Application.Packs;

/// <summary>What came of letting packs and sheets judge.</summary>
public abstract record ActivationOutcome
{
    private ActivationOutcome() { }

    /// <summary>They judge from now on.</summary>
    public sealed record Activated(RulesActivation Activation) : ActivationOutcome;

    /// <summary>They judged already.</summary>
    public sealed record Stood(RulesActivation Activation) : ActivationOutcome;

    /// <summary>None of this digest are kept.</summary>
    public sealed record NotStored : ActivationOutcome;

    /// <summary>They were stored by a version whose words this one does not read.</summary>
    public sealed record NotRead : ActivationOutcome;

    /// <summary>It may not be filed.</summary>
    public sealed record Declined(FilingRefusal Refusal) : ActivationOutcome;
}
