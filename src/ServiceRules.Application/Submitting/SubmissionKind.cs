namespace ServiceRules.Application.Submitting;

/// <summary>What came of a submission that was taken. The numbers are kept with answers and stay.</summary>
public enum SubmissionKind
{
    /// <summary>Nothing was taken.</summary>
    None = 0,

    /// <summary>A record that was not there.</summary>
    Stored = 1,

    /// <summary>The same content stood already.</summary>
    Stood = 2,

    /// <summary>An open job further on, or a closed one with its follow-up.</summary>
    Progressed = 3,

    /// <summary>A correction.</summary>
    Amended = 4,
}
