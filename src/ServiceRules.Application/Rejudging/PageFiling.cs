using System.Collections.Immutable;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Notices;
using ServiceRules.Application.Rows;
using ServiceRules.Application.Submitting;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Rejudging;

/// <summary>One page in its transaction.</summary>
/// <param name="page">The page.</param>
/// <param name="judging">Judges.</param>
/// <param name="looked">What its records came to outside the transaction.</param>
/// <param name="recipients">Who is told of holds and stops of a site.</param>
/// <param name="areSeveral">Whether records of several sites are stored.</param>
/// <param name="at">When.</param>
internal sealed class PageFiling(
    RejudgingPage page,
    JudgeHistory judging,
    ImmutableArray<LookedAt> looked,
    Func<string?, NoticeRecipients> recipients,
    bool areSeveral,
    DateTimeOffset at
)
{
    /// <summary>What came of it; null where nothing was done.</summary>
    public RejudgingCounts? Counts { get; private set; }

    public FilingPlan Decide(ILedgerWriting writing)
    {
        Counts = null;
        JudgeAmongStored.HoldAgainst(writing, areSeveral);
        if (writing.Rejudgings.Page(page.Job.Number, page.Number) is null)
        {
            return new FilingPlan.File([], []);
        }

        if (writing.Packs.InForce()?.Digest != page.Job.Digest)
        {
            return Ended(writing, page, at);
        }

        // Filed since, or erased: what others did in between is taken as it stands now.
        var known = looked.ToDictionary(one => one.Row.Index);
        var now = Rows(writing.Rows, page)
            .Select(row =>
                known.GetValueOrDefault(row.Index) is { } one && IsAsLookedAt(writing, one, row)
                    ? one
                    : judging.Look(writing, row)
            )
            .ToList();
        var turned = now.OfType<LookedAt.Turned>().ToList();
        var counts = CountsOf(now, turned.Count);
        Counts = counts;
        var before = turned.Count == 0 ? [] : Activation(writing);
        return new FilingPlan.File(
            [.. before, .. turned.Select(Part)],
            [.. turned.Select(one => one.Again.Evidence.Context.Bytes)]
        )
        {
            Also = (transaction, placed) =>
            {
                transaction.Rejudgings.Settle(
                    page,
                    counts,
                    [
                        .. now.OfType<LookedAt.Failed>()
                            .Select(one => new NotJudged(one.Row.Index, one.Row.Record, one.Why)),
                    ],
                    at
                );
                foreach (var (one, filed) in turned.Zip(placed.Skip(before.Length)))
                {
                    Owe(transaction, one, filed.Entry.Index);
                }
            },
        };
    }

    /// <summary>Ends the job where other rules are in force.</summary>
    public static FilingPlan Ended(ILedgerWriting writing, RejudgingPage page, DateTimeOffset at)
    {
        if (writing.Packs.InForce()?.Digest == page.Job.Digest)
        {
            throw new LedgerStoreException(StoreTrouble.Busy, "the rules came back into force meanwhile");
        }

        writing.Rejudgings.End(page.Job.Number, at);
        return new FilingPlan.File([], []);
    }

    /// <summary>The newest versions of records that stand in a page now.</summary>
    public static IEnumerable<RecordRow> Rows(IRowReading rows, RejudgingPage page) =>
        rows.Records(
                new RecordFilter(),
                new RowPaging
                {
                    Beyond = new RowPlace(page.First - 1, 0),
                    Most = RejudgingPage.MostRecords,
                    OldestFirst = true,
                }
            )
            .Rows.TakeWhile(row => row.Index <= page.Last);

    private static bool IsAsLookedAt(ILedgerWriting writing, LookedAt one, RecordRow row) =>
        one.Row == row
        && (
            one is not LookedAt.Turned { Again.Evidence: var evidence }
            || (
                writing.Content(evidence.Context.Hash) is not null
                && writing.Content(evidence.Record.Hash) is not null
            )
        );

    // A version that another one followed was judged by the rules in force when that was filed.
    private RejudgingCounts CountsOf(List<LookedAt> now, int turned) =>
        new(
            turned,
            now.Count(one => one is LookedAt.Unchanged),
            now.Count(one => one is LookedAt.Passed) + Math.Max(0, page.Records - now.Count),
            now.Count(one => one is LookedAt.Failed)
        );

    private FilingPart Part(LookedAt.Turned one) =>
        new FilingPart.New(
            new EntryDraft(EntryKind.Assessment, one.Row.Record, one.Again.Evidence.Assessment.Bytes)
            {
                Of = one.Again.Evidence.Record.Hash,
                Reason = RejudgingJob.ReasonOf(page.Job.Digest),
            }
        );

    // The log may not tell yet that these rules are in force: those of the first start come into it with what they judge.
    private ImmutableArray<FilingPart> Activation(ILedgerWriting writing)
    {
        var book = judging.Rules;
        return FileRules.InForce(writing)?.Entry.Content == book.Hash.ToString()
            ? []
            :
            [
                new FilingPart.New(
                    new EntryDraft(EntryKind.PackActivation, FileRules.Subject, book.Bytes)
                    {
                        Reason = "first used to judge the history again",
                    }
                ),
            ];
    }

    // Who was told of a hold is not told again where something else about it is other now.
    private void Owe(ILedgerWriting transaction, LookedAt.Turned one, long entry)
    {
        if (!one.IsOtherDisposition)
        {
            return;
        }

        foreach (var recipient in recipients(one.Row.Site).Of(one.Again.Assessment.Job.Disposition))
        {
            transaction.Rows.Owe(new Notice(entry, recipient, at) { Site = one.Row.Site });
        }
    }
}
