using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Notices;
using ServiceRules.Application.Packs;
using ServiceRules.Application.Submitting;

namespace ServiceRules.Application.Rejudging;

/// <summary>
/// Judges one page of the history by the rules in force. Judging goes on outside the transaction; inside it stand the further
/// assessments, the notices that they make, what came of each record and that the page is done: all of it, or nothing, so that a
/// page that broke off is begun anew and one that two are at is counted once. Safe to share between threads.
/// </summary>
/// <param name="ledger">The log.</param>
/// <param name="filing">Files.</param>
/// <param name="store">What is to be judged again.</param>
/// <param name="rules">What judges.</param>
/// <param name="recipients">Who is told of holds and stops.</param>
/// <param name="areSeveral">Whether records of several sites are stored.</param>
/// <param name="defect">Told of what judging a record, by its place in the log, broke off with.</param>
public sealed class RejudgePage(
    OpenLedger ledger,
    GroupFiling filing,
    IRejudgingStore store,
    ActiveRules rules,
    NoticeRecipients recipients,
    bool areSeveral,
    Action<long, Exception> defect
)
{
    /// <summary>Does it, unless it is done.</summary>
    /// <returns>What came of it; null: nothing was to be done, or other rules are in force and the job ended.</returns>
    /// <exception cref="LedgerStoreException">The store cannot do it now.</exception>
    public async Task<RejudgingCounts?> DoAsync(long job, long number, CancellationToken stop)
    {
        if (store.Page(job, number) is not { } page)
        {
            return null;
        }

        var now = rules.Now();
        var judging = new JudgeHistory(now.Judging, defect);
        var looked = ImmutableArray.CreateBuilder<LookedAt>();
        if (now.Activation.Digest != page.Job.Digest)
        {
            _ = await filing
                .FileAsync(
                    log =>
                    {
                        JudgeAmongStored.HoldAgainst(log, areSeveral);
                        return PageFiling.Ended(log, page, ledger.Now);
                    },
                    stop
                )
                .ConfigureAwait(false);
            return null;
        }

        foreach (var row in PageFiling.Rows(ledger.Rows, page))
        {
            stop.ThrowIfCancellationRequested();
            looked.Add(ledger.Read(log => judging.Look(log, row)));
        }

        var one = Filing(looked.ToImmutable());
        var outcome = await filing.FileAsync(one.Decide, stop).ConfigureAwait(false);
        if (outcome is FilingOutcome.Refused)
        {
            // What an erasure removed would come back. Finding out which costs the whole log, and is needed here alone.
            one = Filing(WithoutErased(looked, ledger.Read(Erasures.Of)));
            outcome = await filing.FileAsync(one.Decide, stop).ConfigureAwait(false);
        }

        return outcome switch
        {
            FilingOutcome.Filed => one.Counts,
            FilingOutcome.Broken broken => throw new BrokenLogException(broken.Fault),
            FilingOutcome.Refused refused => throw new InvalidOperationException(refused.Refusal.ToString()),
            _ => throw new InvalidOperationException("an unknown outcome of a filing"),
        };

        PageFiling Filing(ImmutableArray<LookedAt> records) =>
            new(page, judging, records, RecipientsAt, areSeveral, ledger.Now);
    }

    /// <summary>Gives a page up of which rows were changed: what waits behind it goes on, and it is told as failed.</summary>
    /// <returns>What came of it; null: nothing was to be done.</returns>
    /// <exception cref="LedgerStoreException">The store cannot do it now.</exception>
    public async Task<RejudgingCounts?> GiveUpAsync(long job, long number, CancellationToken stop)
    {
        if (store.Page(job, number) is not { } page)
        {
            return null;
        }

        var counts = new RejudgingCounts(0, 0, 0, page.Records);
        _ = await filing
            .FileAsync(
                log =>
                {
                    JudgeAmongStored.HoldAgainst(log, areSeveral);
                    if (log.Rejudgings.Page(job, number) is not null)
                    {
                        log.Rejudgings.Settle(
                            page,
                            counts,
                            [
                                new NotJudged(
                                    page.First,
                                    string.Create(
                                        CultureInfo.InvariantCulture,
                                        $"entries {page.First} to {page.Last}"
                                    ),
                                    "rows of these entries are not as they were stored; `servicerules ledger rows` tells which"
                                ),
                            ],
                            ledger.Now
                        );
                    }

                    return new FilingPlan.File([], []);
                },
                stop
            )
            .ConfigureAwait(false);
        return counts;
    }

    private NoticeRecipients RecipientsAt(string? site) =>
        areSeveral && site is not null ? recipients.At(site) : recipients;

    private static ImmutableArray<LookedAt> WithoutErased(
        IEnumerable<LookedAt> looked,
        HashSet<Evidence.ContentHash> erased
    ) =>
        [
            .. looked.Select(one =>
                one is LookedAt.Turned { Again.Evidence: var evidence }
                && (
                    erased.Contains(evidence.Assessment.Hash)
                    || erased.Contains(evidence.Context.Hash)
                    || erased.Contains(evidence.Record.Hash)
                )
                    ? new LookedAt.Failed(
                        one.Row,
                        "a further assessment would bring back what an erasure removed"
                    )
                    : one
            ),
        ];
}
