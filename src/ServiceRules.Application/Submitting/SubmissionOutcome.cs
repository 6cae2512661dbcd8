using ServiceRules.Application.Ledger;
using ServiceRules.Formats.Json;

namespace ServiceRules.Application.Submitting;

/// <summary>What came of a submission. What is said to stand is durable, under a checkpoint that is kept outside.</summary>
public abstract record SubmissionOutcome
{
    private SubmissionOutcome() { }

    /// <summary>It was not there, and stands now.</summary>
    public sealed record Stored(StoredSubmission Submission) : SubmissionOutcome;

    /// <summary>An open job further on, or a closed one with its follow-up: it stands as a further version.</summary>
    public sealed record Progressed(StoredSubmission Submission) : SubmissionOutcome;

    /// <summary>A correction: it stands as a further version.</summary>
    public sealed record Amended(StoredSubmission Submission) : SubmissionOutcome;

    /// <summary>The same content stood already.</summary>
    public sealed record Stood(StoredSubmission Submission) : SubmissionOutcome;

    /// <summary>Other content stands under the same identity; the refusal says which, and what differs.</summary>
    public sealed record Conflict(FilingRefusal Refusal) : SubmissionOutcome;

    /// <summary>It may not be filed for another reason, such as nothing being there to correct.</summary>
    public sealed record Declined(FilingRefusal Refusal) : SubmissionOutcome;

    /// <summary>What stands is not what the sender takes it for, see <see cref="Submission.Condition"/>.</summary>
    public sealed record Changed : SubmissionOutcome;

    /// <summary>The key was used with another body.</summary>
    public sealed record OtherBody(SubmissionKey Key) : SubmissionOutcome;

    /// <summary>It cannot be read, or contradicts itself.</summary>
    public sealed record Refused(ProblemReport Problems) : SubmissionOutcome;

    /// <summary>The store could not do it; with the same key it may be sent again.</summary>
    public sealed record Trouble(StoreTrouble What, string Message) : SubmissionOutcome;

    /// <summary>The store is not the one that was opened.</summary>
    public sealed record Broken(LedgerFault Fault) : SubmissionOutcome;
}
