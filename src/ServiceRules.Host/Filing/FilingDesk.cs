using System.Collections.Immutable;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Evidence;
using ServiceRules.Host.Watching;

namespace ServiceRules.Host.Filing;

/// <summary>Where records are judged and filed, one at a time.</summary>
internal sealed class FilingDesk(OpenLedger ledger, AssessRecord judging, ServiceMeter meter) : IDisposable
{
    private readonly SemaphoreSlim turn = new(1, 1);

    public AssessOutcome Judge(ReadOnlyMemory<byte> bytes) => meter.Judged(() => judging.Assess(bytes));

    /// <summary>Asks something of the log while nothing is filed.</summary>
    public async Task<T> AskAsync<T>(Func<OpenLedger, T> ask, CancellationToken stop)
    {
        await turn.WaitAsync(stop);
        try
        {
            return ask(ledger);
        }
        finally
        {
            turn.Release();
        }
    }

    public Task<Submission> SubmitAsync(ReadOnlyMemory<byte> bytes, string? by, CancellationToken stop) =>
        FileAsync(bytes, null, assessed => new FileRecord(ledger).File(assessed, by), stop);

    public Task<Submission> AmendAsync(
        string id,
        ReadOnlyMemory<byte> bytes,
        Correction correction,
        CancellationToken stop
    ) => FileAsync(bytes, id, assessed => new FileRecord(ledger).Amend(assessed, correction), stop);

    /// <summary>Files a record that was judged elsewhere.</summary>
    public Task<FilingOutcome> FileAsync(Assessed assessed, CancellationToken stop) =>
        AskAsync(open => new FileRecord(open).File(assessed, null), stop);

    public void Dispose() => turn.Dispose();

    private async Task<Submission> FileAsync(
        ReadOnlyMemory<byte> bytes,
        string? amended,
        Func<Assessed, FilingOutcome> file,
        CancellationToken stop
    )
    {
        // Judged before its turn comes: that takes longer than filing.
        var judged = Judge(bytes);
        var submission = judged switch
        {
            AssessOutcome.Refused refused => new Submission.Unreadable(refused.Problems),
            AssessOutcome.Judged { Assessed: var other }
                when amended is not null && other.Record.Id.Text != amended => new Submission.OtherRecord(
                other.Record.Id.Text
            ),
            AssessOutcome.Judged { Assessed: var assessed } => await AskAsync(
                open => Filed(open, assessed, amended is not null, file(assessed)),
                stop
            ),
            _ => throw new InvalidOperationException("an unknown outcome of judging"),
        };
        meter.Submitted(submission);
        return submission;
    }

    private static Submission Filed(
        OpenLedger open,
        Assessed assessed,
        bool isAmending,
        FilingOutcome outcome
    ) =>
        outcome switch
        {
            FilingOutcome.Filed filed => new Submission.Stands(assessed, filed),
            FilingOutcome.Refused refused when Latest(open, assessed.Record.Id.Text) is { } latest =>
                new Submission.Conflict(refused.Refusal, Differences(latest, assessed.Evidence.Record)),
            FilingOutcome.Refused when isAmending => new Submission.NothingToAmend(),
            FilingOutcome.Refused refused => new Submission.Conflict(refused.Refusal, []),
            FilingOutcome.Unreadable unreadable => new Submission.Unreadable(unreadable.Problems),
            FilingOutcome.Broken broken => throw new BrokenLogException(broken.Fault),
            _ => throw new InvalidOperationException("an unknown outcome of filing"),
        };

    private static SubjectVersion? Latest(OpenLedger open, string id) =>
        new TellSubject(open.Log).Tell(id).LastOrDefault(RecordAnswer.IsRecord);

    private static ImmutableArray<JsonChange> Differences(SubjectVersion latest, CanonicalDocument sent) =>
        latest.Content is { } stood ? [.. JsonDifference.Between(stood, sent.Bytes)] : [];
}
