using System.Collections.Immutable;
using ServiceRules.Application.Submitting;

namespace ServiceRules.Application.Importing;

/// <summary>What came of one record of a table.</summary>
/// <param name="Record">The record.</param>
/// <param name="Outcome">What came of submitting it; null where it was not submitted.</param>
/// <param name="Problems">What is wrong with it.</param>
public sealed record ImportedRecord(
    MappedRecord Record,
    SubmissionOutcome? Outcome,
    ImmutableArray<RowProblem> Problems
)
{
    /// <summary>What stands now; null where it does not.</summary>
    public StoredSubmission? Stored =>
        Outcome switch
        {
            SubmissionOutcome.Stored one => one.Submission,
            SubmissionOutcome.Progressed one => one.Submission,
            SubmissionOutcome.Amended one => one.Submission,
            SubmissionOutcome.Stood one => one.Submission,
            _ => null,
        };

    /// <summary>Whether the same stood already.</summary>
    public bool Stood => Outcome is SubmissionOutcome.Stood;
}
