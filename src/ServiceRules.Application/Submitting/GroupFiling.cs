using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;
using System.Threading.Channels;
using ServiceRules.Application.Ledger;

namespace ServiceRules.Application.Submitting;

/// <summary>
/// Files for many at once: whatever waits is filed in one transaction, so that all of them share one sync of the disk and
/// one checkpoint. Each is answered once its own filing is durable. Disposing finishes what waits.
/// </summary>
public sealed class GroupFiling : IAsyncDisposable
{
    private readonly OpenLedger ledger;
    private readonly int togetherMost;
    private readonly Channel<Waiting> queue;
    private readonly Task owner;
    private volatile bool isStopping;

    /// <param name="ledger">The log.</param>
    /// <param name="waitingMost">How many may wait; whoever comes then is told that the store is busy.</param>
    /// <param name="togetherMost">How many share a transaction at most.</param>
    public GroupFiling(OpenLedger ledger, int waitingMost = 1024, int togetherMost = 128)
    {
        ArgumentNullException.ThrowIfNull(ledger);
        this.ledger = ledger;
        this.togetherMost = togetherMost;
        queue = Channel.CreateBounded<Waiting>(
            new BoundedChannelOptions(waitingMost)
            {
                SingleReader = true,
                FullMode = BoundedChannelFullMode.Wait,
            }
        );
        // A thread of its own: it waits for the disk most of the time.
        owner = Task.Factory.StartNew(
            Run,
            CancellationToken.None,
            TaskCreationOptions.LongRunning,
            TaskScheduler.Default
        );
    }

    /// <summary>How many wait.</summary>
    public int Count => queue.Reader.Count;

    public async ValueTask DisposeAsync()
    {
        isStopping = true;
        _ = queue.Writer.TryComplete();
        await owner.ConfigureAwait(false);
    }

    /// <exception cref="LedgerStoreException">Too many wait, or the store could not do it.</exception>
    internal async Task<FilingOutcome> FileAsync(
        Func<ILedgerWriting, FilingPlan> decide,
        CancellationToken cancellation
    )
    {
        var waiting = new Waiting(decide, cancellation);
        if (!queue.Writer.TryWrite(waiting))
        {
            throw new LedgerStoreException(
                StoreTrouble.Busy,
                isStopping
                    ? "the service is stopping and takes no more"
                    : "too many submissions wait to be filed"
            );
        }

        return await waiting.Answer.WaitAsync(cancellation).ConfigureAwait(false);
    }

    private void Run()
    {
        var together = new List<Waiting>();
        while (queue.Reader.WaitToReadAsync().AsTask().GetAwaiter().GetResult())
        {
            together.Clear();
            while (together.Count < togetherMost && queue.Reader.TryRead(out var waiting))
            {
                if (!waiting.IsGivenUp)
                {
                    together.Add(waiting);
                }
            }

            if (together.Count > 0)
            {
                File(together);
            }
        }
    }

    [SuppressMessage(
        "Design",
        "CA1031",
        Justification = "Whatever it is, those who wait are told, and those who come later are served."
    )]
    private void File(List<Waiting> together)
    {
        ImmutableArray<FilingAttempt> attempts;
        try
        {
            attempts = ledger.FileTogether([
                .. together.Select(waiting => (Func<ILedgerWriting, FilingPlan>)waiting.Decide),
            ]);
        }
        catch (Exception failure)
        {
            attempts = [.. together.Select(_ => new FilingAttempt.Failed(failure))];
        }

        foreach (var (waiting, attempt) in together.Zip(attempts))
        {
            waiting.Tell(attempt);
        }
    }

    /// <summary>One who waits.</summary>
    private sealed class Waiting(Func<ILedgerWriting, FilingPlan> decide, CancellationToken cancellation)
    {
        // Whoever waits goes on elsewhere: the owner has the next ones to file.
        private readonly TaskCompletionSource<FilingOutcome> answer = new(
            TaskCreationOptions.RunContinuationsAsynchronously
        );

        /// <summary>
        /// Asked again once the store is held: who gave up while somebody else held it was told that nothing is stored.
        /// </summary>
        public FilingPlan Decide(ILedgerWriting log)
        {
            cancellation.ThrowIfCancellationRequested();
            return decide(log);
        }

        public Task<FilingOutcome> Answer => answer.Task;

        /// <summary>Whether nobody waits any more; then it is not filed.</summary>
        public bool IsGivenUp => cancellation.IsCancellationRequested;

        public void Tell(FilingAttempt attempt) =>
            _ = attempt switch
            {
                FilingAttempt.Came came => answer.TrySetResult(came.Outcome),
                FilingAttempt.Failed failed => answer.TrySetException(failed.Failure),
                _ => throw new InvalidOperationException("an unknown outcome of a filing"),
            };
    }
}
