using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Evidence;

namespace ServiceRules.Application.Submitting;

/// <summary>One submission in its transaction: what its key was answered, or what filing it comes to.</summary>
/// <param name="submission">What was sent.</param>
/// <param name="fingerprint">What makes it the same as another.</param>
/// <param name="assessed">The record, judged; null where its key was answered when that was looked up.</param>
/// <param name="at">When it came.</param>
internal sealed class RecordSubmission(
    Submission submission,
    ContentHash fingerprint,
    Assessed? assessed,
    DateTimeOffset at
)
{
    /// <summary>The record, judged; null where an earlier answer is told.</summary>
    public Assessed? Assessed => IsReplay ? null : assessed;

    /// <summary>What came of it; what of the earlier one where that is told again.</summary>
    public SubmissionKind Kind { get; private set; }

    /// <summary>Whether the key was answered before.</summary>
    public bool IsReplay { get; private set; }

    /// <summary>Whether the key was answered before, for another body.</summary>
    public bool IsOtherBody { get; private set; }

    /// <summary>Whether the answer to the key went since it was looked up, so that the record has to be judged.</summary>
    public bool IsAnswerGone { get; private set; }

    public FilingPlan Decide(ILedgerWriting writing)
    {
        if (NamedPerson.Fault(submission.Named) is { } unfit)
        {
            return new FilingPlan.Refuse(unfit);
        }

        if (submission.Key is { } key && writing.Rows.Answer(key) is { } answered)
        {
            return Again(writing, answered);
        }

        if (assessed is null)
        {
            IsAnswerGone = true;
            return new FilingPlan.Refuse(new("the answer to the key is gone", "the same again"));
        }

        var by = submission.Correction?.By ?? submission.By ?? assessed.Record.SignOff?.By.Text;
        var plan = FileRecord.Plan(writing, assessed, by, submission.Correction);
        if (plan is not FilingPlan.File file)
        {
            return plan;
        }

        Kind = KindOf(writing, file, assessed.Record.Id.Text);
        return submission.Key is { } named
            ? file with
            {
                Also = (transaction, placed) =>
                    transaction.Rows.Keep(
                        new(named, fingerprint, Kind, placed[^2].Entry.Index, placed[^1].Entry.Index, at)
                        {
                            By = Pseudonym(transaction),
                        }
                    ),
            }
            : file;
    }

    private FilingPlan Again(ILedgerWriting writing, AnsweredKey answered)
    {
        IsReplay =
            answered.Fingerprint == fingerprint && (answered.By is null || answered.By == Pseudonym(writing));
        IsOtherBody = !IsReplay;
        Kind = answered.Kind;
        return IsReplay
            ? new FilingPlan.File(
                [Standing(writing, answered.Record), Standing(writing, answered.Assessment)],
                []
            )
            : new FilingPlan.Refuse(
                new("the key was used with another body", "another key, or the same body")
            );
    }

    private string? Pseudonym(ILedgerReading log) =>
        submission.Named is { } person ? log.PseudonymOf(person) : null;

    private SubmissionKind KindOf(ILedgerReading log, FilingPlan.File file, string id) =>
        file.Parts[^2] is FilingPart.Standing ? SubmissionKind.Stood
        : submission.Correction is not null ? SubmissionKind.Amended
        : RecordVersions.Of(log, id).Latest is not null ? SubmissionKind.Progressed
        : SubmissionKind.Stored;

    private static FilingPart.Standing Standing(ILedgerReading log, long index) =>
        log.Entry(index) is { } stored && EntryReading.TryRead(stored, out var entry, out _)
            ? new(entry)
            : throw new BrokenLogException(
                new(LedgerFaultCode.EntryMissing, LedgerWords.Entry(index), "a key was answered with it")
            );
}
