using System.Collections.Immutable;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Rows;
using ServiceRules.Domain.Site;
using ServiceRules.Engine;
using ServiceRules.Evidence;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Submitting;

/// <summary>
/// Judges a record knowing what the stored ones show of its machine, locks and people, and judges those again on which it
/// bears. Safe to share between threads.
/// </summary>
/// <param name="judging">Judges, by the rules and registers of one site.</param>
/// <param name="isOfSeveral">Whether records of other sites are stored as well.</param>
internal sealed class JudgeAmongStored(AssessRecord judging, bool isOfSeveral)
{
    // Those in force before, when others came into force since.
    private const int KeptBooks = 4;

    private readonly StoredOthers others = new(judging.Site, isOfSeveral);
    private readonly BoundedCache<string, KeptBook> earlier = new(KeptBooks, StringComparer.Ordinal);

    /// <summary>The site whose registers judge.</summary>
    public string Site => judging.Site.Name;

    /// <summary>Whether another site has a record of this identity, of which nothing is told here.</summary>
    /// <remarks>Where its rows went with its content, nothing tells any more whose it is: it is taken.</remarks>
    public bool IsTaken(string record, ILedgerReading log, IRowReading rows) =>
        isOfSeveral
        && (
            rows.Versions(record) is { IsEmpty: false } known
                ? known.Any(row => row.Site != judging.Site.Name)
                : RecordVersions.Of(log, record).Latest is not null
        );

    /// <summary>
    /// Refuses to go on where the log became that of several sites since this process began: it does not tell their records apart.
    /// </summary>
    /// <exception cref="LedgerStoreException">It did.</exception>
    public void HoldAgainst(ILedgerWriting writing) => HoldAgainst(writing, isOfSeveral);

    /// <summary>The same, for whatever else tells sites apart or not.</summary>
    /// <exception cref="LedgerStoreException">It did.</exception>
    public static void HoldAgainst(ILedgerWriting writing, bool isOfSeveral)
    {
        if (!isOfSeveral && writing.Accounts.AreSeveralSites())
        {
            throw new LedgerStoreException(
                StoreTrouble.Outdated,
                "the installation became one of several sites since this instance was started"
            );
        }
    }

    /// <summary>What the record comes to.</summary>
    public AssessOutcome Judge(ReadOnlyMemory<byte> bytes, StoredNow now) =>
        judging.Assess(
            bytes,
            record =>
            {
                var own = WorkElsewhere.Read(record, judging.Site.Zone);
                return Work(others.Near(own, now, []), own);
            }
        );

    /// <summary>The same, and what the stored records come to in its light.</summary>
    public StoredOutlook Look(ReadOnlyMemory<byte> bytes, StoredNow now)
    {
        var outcome = Judge(bytes, now);
        return new(
            outcome,
            outcome is AssessOutcome.Judged judged ? Turned(judged.Assessed, now) : [],
            now.Log.Head?.Size ?? 0
        );
    }

    private ImmutableArray<JudgedAgain> Turned(Assessed filed, StoredNow now)
    {
        var changed = new Changed(
            WorkElsewhere.Read(filed.Record, judging.Site.Zone),
            now.Rows.Versions(filed.Record.Id.Text).LastOrDefault(row => row.IsNewest) is { } row
                ? others.Followed(now.Log, row)
                : null
        );
        // Where the earlier version bore, the new one may no longer do so.
        var near = others
            .Near(changed.Now, now, [])
            .Concat(changed.Before is { } earlier ? others.Near(earlier, now, []) : [])
            .DistinctBy(other => other.Row.Index)
            .OrderBy(other => other.Row.Index)
            .ToList();
        var (before, after) = (Work(near, changed.Before), Work(near, changed.Now));
        return
        [
            .. near.Where(other => !IsToldTheSame(before, after, other.Told))
                .Select(other => Again(other, changed, now))
                .OfType<JudgedAgain>(),
        ];
    }

    private JudgedAgain? Again(StoredOther other, Changed changed, StoredNow now)
    {
        if (FiledAssessed.Read(now.Log, other.Row, digest => BookOf(now.Log, digest)) is not { } stood)
        {
            return null;
        }

        var near = others
            .Near(other.Told, now, stood.Context.OtherRecords.Select(told => told.Record.Text))
            .Where(one => one.Told.Id != changed.Now.Id)
            .ToList();
        var (before, after) = (Work(near, changed.Before), Work(near, changed.Now));
        var again = judging.Again(stood, Context(stood, other.Told, near, changed, before, after));
        return VerdictComparison.Between(stood.Assessment, again.Assessment).IsEmpty
            ? null
            : new JudgedAgain(again);
    }

    // What registers told when it was first judged, and records that are not stored here, stays as it was told.
    private AssessmentContext Context(
        Assessed stood,
        WorkElsewhere.RecordTold told,
        List<StoredOther> near,
        Changed changed,
        WorkElsewhere before,
        WorkElsewhere after
    )
    {
        var toldBefore = before.Beside(told).ToHashSet();
        var known = near.Select(one => one.Told.Id).Append(changed.Now.Id).ToHashSet();
        return ContextFreezer.Again(
            judging.Site,
            stood.Context,
            stood.Record,
            [.. stood.Context.Elsewhere.Where(one => !toldBefore.Contains(one)), .. after.Beside(told)],
            [
                .. stood.Context.OtherRecords.Where(one => !known.Contains(one.Record)),
                .. after.OtherRecords(told.Shown),
            ]
        );
    }

    private (RuleBook Value, CanonicalDocument Document)? BookOf(ILedgerReading log, string digest) =>
        judging.BookOf(digest)
        ?? earlier.GetOrMake(digest, () => new KeptBook(FiledAssessed.Book(log, digest))).Book;

    private WorkElsewhere Work(IEnumerable<StoredOther> near, WorkElsewhere.RecordTold? with) =>
        WorkElsewhere.Of(
            with is null
                ? near.Select(other => other.Told)
                : near.Select(other => other.Told).Where(told => told.Id != with.Id).Append(with),
            judging.Site.Zone
        );

    private static bool IsToldTheSame(
        WorkElsewhere before,
        WorkElsewhere after,
        WorkElsewhere.RecordTold told
    ) =>
        before.Beside(told).SequenceEqual(after.Beside(told))
        && before
            .OtherRecords(told.Shown)
            .SequenceEqual(after.OtherRecords(told.Shown), OtherRecordContent.Same);

    private sealed record KeptBook((RuleBook Value, CanonicalDocument Document)? Book);

    /// <summary>A record as it is now, and as it stood before; null: it was not there.</summary>
    private sealed record Changed(WorkElsewhere.RecordTold Now, WorkElsewhere.RecordTold? Before);

    private sealed class OtherRecordContent : IEqualityComparer<OtherRecord>
    {
        public static OtherRecordContent Same { get; } = new();

        public bool Equals(OtherRecord? x, OtherRecord? y) =>
            x is null || y is null
                ? x == y
                : (x.Record, x.Machine, x.Place, x.SignOff) == (y.Record, y.Machine, y.Place, y.SignOff)
                    && x.Bench.SequenceEqual(y.Bench)
                    && x.Timeline.SequenceEqual(y.Timeline);

        public int GetHashCode(OtherRecord obj) => obj.Record.GetHashCode();
    }
}
