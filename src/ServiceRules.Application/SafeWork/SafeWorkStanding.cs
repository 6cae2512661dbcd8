namespace ServiceRules.Application.SafeWork;

/// <summary>What a record shows of safe work, taken as a whole. Gravest first.</summary>
public enum SafeWorkStanding
{
    /// <summary>At least one duty is not shown.</summary>
    NotShown,

    /// <summary>No duty is shown to be missed, and at least one is not proven.</summary>
    NotProven,

    /// <summary>The job is open: what it shows so far is in order, and more is to come.</summary>
    InProgress,

    /// <summary>Every duty that applies is shown, and a claim that holds takes lockout off the job.</summary>
    Exempt,

    /// <summary>Every duty that applies is shown.</summary>
    Shown,

    /// <summary>No duty applies, so nothing was judged.</summary>
    NotJudged,
}
