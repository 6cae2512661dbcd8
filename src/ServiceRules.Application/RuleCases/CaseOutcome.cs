namespace ServiceRules.Application.RuleCases;

/// <summary>What running a case came to.</summary>
public enum CaseOutcome
{
    /// <summary>The rule came out as the case says.</summary>
    AsExpected,

    /// <summary>The rule came out otherwise.</summary>
    OtherVerdict,

    /// <summary>The verdict is as the case says, and what it does to its subject is not.</summary>
    OtherEffect,

    /// <summary>There is no record to judge: no such fixture, a patch that does not fit, or a record that is refused.</summary>
    CannotBeBuilt,
}
