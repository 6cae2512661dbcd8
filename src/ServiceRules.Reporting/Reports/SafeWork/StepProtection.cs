namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>What is shown of somebody's protection at the moment of a step that took their hand at a unit.</summary>
internal enum StepProtection
{
    /// <summary>Protected from every source.</summary>
    Shown,

    /// <summary>The same by entries that are not credible enough to prove it.</summary>
    NotProven,

    /// <summary>Neither shown nor shown to be lacking: the finding against it leaves that open.</summary>
    LeftOpen,

    /// <summary>A wedge before work: every source off and held, which is all that can be asked by then.</summary>
    OffBeforeProof,

    /// <summary>A unit held up before work: nothing has to be isolated yet.</summary>
    NotAskedYet,

    /// <summary>No written procedure says from what.</summary>
    CannotBeTold,

    /// <summary>Not protected from every source, or the machine ran.</summary>
    NotShown,
}
