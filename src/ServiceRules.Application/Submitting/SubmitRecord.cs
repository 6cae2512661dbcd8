using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Notices;
using ServiceRules.Application.Packs;

namespace ServiceRules.Application.Submitting;

/// <summary>
/// Judges a record knowing what is stored, and files it. Judging goes on outside the transaction; inside it stand the record, its
/// assessment, those of stored records that are judged otherwise in its light, their entries, the rows that queries read and the
/// answer to the key: all of them, or none. What was filed while it was judged is taken into account inside.
/// </summary>
/// <param name="judging">Judges.</param>
/// <param name="ledger">The log.</param>
/// <param name="filing">Files for many at once.</param>
/// <param name="recipients">Who is told of holds and stops; null: nobody.</param>
/// <param name="isOfSeveral">Whether the log is shared with other sites, each of which is judged apart.</param>
public sealed class SubmitRecord(
    AssessRecord judging,
    OpenLedger ledger,
    GroupFiling filing,
    NoticeRecipients? recipients = null,
    bool isOfSeveral = false
)
{
    private readonly NoticeRecipients recipients = recipients ?? NoticeRecipients.None;
    private readonly JudgeAmongStored among = new(judging, isOfSeveral);

    /// <summary>
    /// What it judges by, where that may end: once other rules are in force, or other waivers count, it files nothing any more. Null: it
    /// never ends.
    /// </summary>
    internal JudgingRules? Rules { get; init; }

    /// <summary>Judges as submitting would, and stores nothing.</summary>
    /// <exception cref="LedgerStoreException">The store cannot be read.</exception>
    public AssessOutcome Judge(ReadOnlyMemory<byte> body) =>
        ledger.Read((log, rows) => among.Judge(body, new StoredNow(log, rows)));

    /// <summary>Judges and files; what was answered to the key before is answered again without judging.</summary>
    /// <param name="submission">What was sent.</param>
    /// <param name="cancellation">Stops waiting. What is filed by then stands; sent again, it is told.</param>
    public async Task<SubmissionOutcome> SubmitAsync(
        Submission submission,
        CancellationToken cancellation = default
    ) => await TryAsync(submission, cancellation).ConfigureAwait(false) ?? Overtaken;

    /// <summary>What is answered where rules or waivers changed while a record was judged.</summary>
    internal static SubmissionOutcome.Trouble Overtaken =>
        new(StoreTrouble.Overtaken, "other rules came into force, or other waivers, while it was judged");

    /// <summary>The same; null: other rules or waivers judge by now, and nothing is filed.</summary>
    internal async Task<SubmissionOutcome?> TryAsync(Submission submission, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(submission);
        if (SubmissionFingerprint.Of(submission) is not { } fingerprint)
        {
            return judging.Assess(submission.Body) is AssessOutcome.Refused unreadable
                ? new SubmissionOutcome.Refused(unreadable.Problems)
                : throw new InvalidOperationException("a record was judged that has no canonical form");
        }

        try
        {
            if (submission.Key is { } key && ledger.Rows.Answer(key) is not null)
            {
                var again = new RecordSubmission(
                    submission,
                    fingerprint,
                    among,
                    null,
                    null,
                    recipients,
                    ledger.Now
                );
                var told = await filing.FileAsync(again.Decide, cancellation).ConfigureAwait(false);
                if (!again.IsAnswerGone)
                {
                    return Outcome(submission, again, told);
                }
            }

            var outlook = ledger.Read((log, rows) => among.Look(submission.Body, new StoredNow(log, rows)));
            switch (outlook.Outcome)
            {
                case AssessOutcome.Refused refused:
                    return new SubmissionOutcome.Refused(refused.Problems);
                case AssessOutcome.Judged:
                    var one = new RecordSubmission(
                        submission,
                        fingerprint,
                        among,
                        outlook,
                        Rules,
                        recipients,
                        ledger.Now
                    );
                    var filed = await filing.FileAsync(one.Decide, cancellation).ConfigureAwait(false);
                    return one.IsOvertaken ? null : Outcome(submission, one, filed);
                default:
                    throw new InvalidOperationException("an unknown outcome of judging");
            }
        }
        catch (LedgerStoreException failure)
        {
            return new SubmissionOutcome.Trouble(failure.Trouble, failure.Message);
        }
    }

    private SubmissionOutcome Outcome(Submission submission, RecordSubmission one, FilingOutcome outcome) =>
        outcome switch
        {
            FilingOutcome.Filed filed => Outcome(one, filed),
            FilingOutcome.Refused when one.IsOtherBody => new SubmissionOutcome.OtherBody(submission.Key!),
            FilingOutcome.Refused when one.IsChanged => new SubmissionOutcome.Changed(),
            FilingOutcome.Refused { Refusal: { Standing: not null } refusal } =>
                new SubmissionOutcome.Conflict(refusal),
            FilingOutcome.Refused { Refusal: var refusal } => new SubmissionOutcome.Declined(refusal),
            FilingOutcome.Unreadable unreadable => new SubmissionOutcome.Refused(unreadable.Problems),
            FilingOutcome.Broken broken => new SubmissionOutcome.Broken(broken.Fault),
            _ => throw new InvalidOperationException("an unknown outcome of a filing"),
        };

    private SubmissionOutcome Outcome(RecordSubmission one, FilingOutcome.Filed filed)
    {
        var (record, assessment) = FileRecord.Parts(filed);
        var isJudgedHere =
            one.Assessed is { } judged
            && judged.Evidence.Assessment.Hash.ToString() == assessment.Entry.Content;
        var stored = ledger.Read(log => new StoredSubmission(
            record,
            assessment,
            isJudgedHere ? one.Assessed!.Evidence.Assessment.Bytes : log.Sound(assessment.Entry.Content),
            one.IsReplay
        )
        {
            Turned =
                one.Kind is SubmissionKind.Stood
                    ? []
                    : TurnedRecord.InTheLightOf(log, record.Entry.Subject, assessment.Index),
            Others = AssessmentOthers.Of(log, assessment),
        });
        return one.Kind switch
        {
            SubmissionKind.Stored => new SubmissionOutcome.Stored(stored),
            SubmissionKind.Stood => new SubmissionOutcome.Stood(stored),
            SubmissionKind.Progressed => new SubmissionOutcome.Progressed(stored),
            SubmissionKind.Amended => new SubmissionOutcome.Amended(stored),
            _ => throw new InvalidOperationException("an unknown kind of submission"),
        };
    }
}
