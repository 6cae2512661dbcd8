using System.Collections.Immutable;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Notices;
using ServiceRules.Application.Packs;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Evidence;
using ServiceRules.Formats.Assessments;

namespace ServiceRules.Application.Submitting;

/// <summary>One submission in its transaction: what its key was answered, or what filing it comes to.</summary>
/// <param name="submission">What was sent.</param>
/// <param name="fingerprint">What makes it the same as another.</param>
/// <param name="among">Judges it, and others in its light.</param>
/// <param name="outlook">What it came to before; null where its key was answered when that was looked up.</param>
/// <param name="rules">What it was judged by; null: nothing that could have changed since.</param>
/// <param name="recipients">Who is told of holds and stops.</param>
/// <param name="at">When it came.</param>
internal sealed class RecordSubmission(
    Submission submission,
    ContentHash fingerprint,
    JudgeAmongStored among,
    StoredOutlook? outlook,
    JudgingRules? rules,
    NoticeRecipients recipients,
    DateTimeOffset at
)
{
    private Assessed? assessed;

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

    /// <summary>Whether other rules or waivers judge since it was judged: nothing is filed by those.</summary>
    public bool IsOvertaken { get; private set; }

    /// <summary>Whether what stands is not what the sender takes it for.</summary>
    public bool IsChanged { get; private set; }

    public FilingPlan Decide(ILedgerWriting writing)
    {
        among.HoldAgainst(writing);
        if (NamedPerson.Fault(submission.Named) is { } unfit)
        {
            return new FilingPlan.Refuse(unfit);
        }

        if (submission.Key is { } key && writing.Rows.Answer(key) is { } answered)
        {
            return Again(writing, answered);
        }

        if (outlook is null)
        {
            IsAnswerGone = true;
            return new FilingPlan.Refuse(new("the answer to the key is gone", "the same again"));
        }

        if (rules?.StillJudge(writing) is false)
        {
            IsOvertaken = true;
            return new FilingPlan.Refuse(new("other rules judge since it was judged", "the same again"));
        }

        // Whatever was filed since it was judged may bear on it, and it on that.
        var current = writing.Entry(outlook.Size) is null
            ? outlook
            : among.Look(submission.Body, new StoredNow(writing, writing.Rows));
        assessed = ((AssessOutcome.Judged)current.Outcome).Assessed;
        var id = assessed.Record.Id.Text;
        if (among.IsTaken(id, writing, writing.Rows))
        {
            return new FilingPlan.Refuse(
                submission.Correction is null ? FilingRefusal.Taken : FilingRefusal.NothingToAmend(id)
            );
        }

        // Held before anything else is told of what stands; where nothing does, filing says so.
        if (
            submission.Condition is { } holds
            && RecordVersions.Of(writing, id).Latest is not null
            && !holds(writing, id)
        )
        {
            IsChanged = true;
            return new FilingPlan.Refuse(new("the record was changed since", "the record as it stands now"));
        }

        var by = submission.Correction?.By ?? submission.By ?? assessed.Record.SignOff?.By.Text;
        var plan = FileRecord.Plan(writing, assessed, by, submission.Correction, submission.Sender, Standing);
        if (plan is not FilingPlan.File file)
        {
            return plan;
        }

        Kind = KindOf(writing, file, id);
        var record = file.Parts.Length - 2;
        return file with
        {
            Parts =
                Kind is SubmissionKind.Stood
                    ? file.Parts
                    : [.. file.Parts, .. current.Turned.Select(turned => turned.Part(id))],
            Beside =
            [
                .. file.Beside,
                .. current.Turned.Select(turned => turned.Assessed.Evidence.Context.Bytes),
            ],
            Also = (transaction, placed) =>
            {
                if (submission.Key is { } named)
                {
                    Answer(transaction, named, placed[record].Entry.Index, placed[record + 1].Entry.Index);
                }

                Owe(
                    transaction,
                    placed[(record + 1)..],
                    [assessed, .. current.Turned.Select(turned => turned.Assessed)]
                );
            },
        };
    }

    private void Answer(ILedgerWriting transaction, SubmissionKey named, long record, long assessment) =>
        transaction.Rows.Keep(
            new(named, fingerprint, Kind, record, assessment, at) { By = Pseudonym(transaction) }
        );

    // With what it tells of, or not at all: whatever happens next, it is found.
    private void Owe(
        ILedgerWriting transaction,
        ImmutableArray<FilingOutcome.Placed> assessments,
        ImmutableArray<Assessed> judged
    )
    {
        foreach (var (placed, one) in assessments.Zip(judged).Where(pair => pair.First.IsNew))
        {
            foreach (var recipient in recipients.Of(one.Assessment.Job.Disposition))
            {
                transaction.Rows.Owe(new(placed.Entry.Index, recipient, at) { Site = among.Site });
            }
        }
    }

    // What others show goes on after a record was filed; sent again, it gets another assessment only where a verdict differs, or
    // the rules do.
    private static FiledEntry? Standing(ILedgerReading log, Assessed assessed)
    {
        if (FileRecord.Assessments(log, assessed).LastOrDefault() is not { } last)
        {
            return null;
        }

        var isSame =
            last.Entry.Content == assessed.Evidence.Assessment.Hash.ToString()
            || (
                log.Sound(last.Entry.Content) is { } bytes
                && AssessmentFormat.SemanticsOf(bytes.Span) == Assessment.SemanticsVersion
                && AssessmentFormat.Current.Read(bytes).TryGet(out var before, out _)
                && before.Digests.Packs == assessed.Assessment.Digests.Packs
                && VerdictComparison.Between(before, assessed.Assessment).IsEmpty
            );
        return isSame ? last : null;
    }

    private FilingPlan Again(ILedgerWriting writing, AnsweredKey answered)
    {
        IsReplay =
            answered.Fingerprint == fingerprint && (answered.By is null || answered.By == Pseudonym(writing));
        IsOtherBody = !IsReplay;
        Kind = answered.Kind;
        return IsReplay
            ? new FilingPlan.File(
                [Answered(writing, answered.Record), Answered(writing, answered.Assessment)],
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

    private static FilingPart.Standing Answered(ILedgerReading log, long index) =>
        log.Entry(index) is { } stored && EntryReading.TryRead(stored, out var entry, out _)
            ? new(entry)
            : throw new BrokenLogException(
                new(LedgerFaultCode.EntryMissing, LedgerWords.Entry(index), "a key was answered with it")
            );
}
