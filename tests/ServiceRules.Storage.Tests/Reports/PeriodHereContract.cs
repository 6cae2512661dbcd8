using System.Collections.Immutable;
using System.Text;
using System.Text.Json.Nodes;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Reports;
using ServiceRules.Application.Rows;
using ServiceRules.Application.SafeWork;
using ServiceRules.Application.Submitting;
using ServiceRules.Storage.Tests.Submitting;

namespace ServiceRules.Storage.Tests.Reports;

/// <summary>
/// Whether the report of a period still tells its days, where records come while it is made: it is read, judged and drawn before it is filed.
/// J-1 is of 2026-04-13, J-2 of the day after, and so on.
/// </summary>
public abstract class PeriodHereContract : DrawerContract
{
    private static readonly DateOnly From = new(2026, 4, 13);
    private static readonly DateOnly Until = new(2026, 4, 15);
    private static readonly byte[] Pdf = "%PDF-1.7 the report of a period"u8.ToArray();
    private static readonly Correction Why = new("lead-01", "read again");

    private protected PeriodHereContract(Func<Drawer> drawer)
        : base(drawer) { }

    private async Task<Counter> FiledAsync()
    {
        var counter = new Counter(Drawer);
        Assert.IsType<SubmissionOutcome.Stored>(await counter.SubmitAsync(Jobs.Job("J-1")));
        Assert.IsType<SubmissionOutcome.Stored>(await counter.SubmitAsync(Jobs.Job("J-2")));
        return counter;
    }

    [SkippableTheory]
    [InlineData("nothing", null)]
    [InlineData("filed", "J-3")]
    [InlineData("filed on another day", null)]
    [InlineData("corrected", "J-1")]
    [InlineData("moved to another day", "J-1")]
    public async Task Report_WhileWhoseMakingRecordsCame_IsSupersededByThoseThatItDoesNotTell(
        string what,
        string? newer
    )
    {
        await using var counter = await FiledAsync();
        var period = Read(counter);

        var came = what switch
        {
            "filed" => await counter.SubmitAsync(Jobs.Job("J-3")),
            "filed on another day" => await counter.SubmitAsync(Jobs.Job("J-30")),
            "corrected" => await counter.SubmitAsync(Jobs.Job("J-1", Jobs.Mend), null, Why),
            "moved to another day" => await counter.SubmitAsync(
                Jobs.Job("J-30", job => job["id"] = "J-1"),
                null,
                Why
            ),
            _ => null,
        };
        Assert.True(
            came is null or SubmissionOutcome.Stored or SubmissionOutcome.Amended,
            came?.ToString() ?? ""
        );
        File(counter, period);

        var here = Here(counter, period.Evidence.Jobs.Bytes)!;
        Assert.Equal(newer is null ? null : Last(counter, newer), here.Newer);
        Assert.True(here.Newer is null || here.Newer < here.Index);

        _ = await counter.SubmitAsync(Jobs.Job("J-2", Jobs.Mend), null, Why);
        Assert.True(Here(counter, period.Evidence.Jobs.Bytes)!.Newer > here.Index);
    }

    [SkippableTheory]
    [InlineData(1, true, false)]
    [InlineData(1, false, false)]
    [InlineData(0, false, true)]
    public async Task Report_ThatSaysWhatItLeftOut_IsSupersededOnlyByWhatItLeftOutUnsaid(
        int unusable,
        bool isNamed,
        bool isSuperseded
    )
    {
        await using var counter = await FiledAsync();
        var period = Read(counter);
        File(counter, period);

        var here = Here(
            counter,
            Changed(
                period,
                jobs =>
                {
                    jobs["jobs"]!.AsArray().RemoveAt(1);
                    jobs["leftOut"]!["unusable"] = unusable;
                    jobs["leftOut"]!["names"] = isNamed ? new JsonArray("J-2") : new JsonArray();
                }
            )
        )!;

        Assert.Equal(isSuperseded ? Last(counter, "J-2") : null, here.Newer);
    }

    [SkippableFact]
    public async Task Report_OfAVersionThatWasNeverFiled_IsNotSupersededByAnEarlierOne()
    {
        await using var counter = await FiledAsync();
        var period = Read(counter);
        File(counter, period);

        var here = Here(
            counter,
            Changed(period, jobs => jobs["jobs"]![0]!["record"]!["complaint"] = "as in a file")
        )!;

        Assert.Null(here.Newer);
    }

    [SkippableFact]
    public async Task Report_OfASiteThatIsNotSeen_IsNotLookedFor()
    {
        await using var counter = await FiledAsync();
        var period = Read(counter);
        File(counter, period);

        Assert.Null(Here(counter, period.Evidence.Jobs.Bytes, _ => false, new NeverAsked()));
        _ = Assert.Throws<NotSupportedException>(() =>
            Here(counter, period.Evidence.Jobs.Bytes, _ => true, new NeverAsked())
        );
    }

    private static SafeWorkPeriod Read(Counter counter)
    {
        var site = Jobs.Rules.Site!;
        var records = new StoredRecords(counter.Ledger, site.Name, Jobs.Rules.Book, From, Until, default);
        var read = new ReadPeriod(records, Jobs.Rules.Book, site, new Judge()).Read(From, Until, out _);
        Assert.True(read.TryGet(out var period, out var fault), fault);
        return period!;
    }

    private static void File(Counter counter, SafeWorkPeriod period) =>
        Assert.IsType<FilingOutcome.Filed>(new FilePeriodReport(counter.Ledger, false).File(period, Pdf));

    private static PeriodHere? Here(
        Counter counter,
        ReadOnlyMemory<byte> jobs,
        Func<string, bool>? sees = null,
        IRowReading? instead = null
    ) =>
        counter.Ledger.Read(
            (log, rows) =>
                PeriodHere.Of(
                    log,
                    instead ?? rows,
                    Pdf,
                    new SignedReport(
                        [],
                        true,
                        true,
                        null,
                        null,
                        null,
                        new Dictionary<string, byte[]>(StringComparer.Ordinal)
                        {
                            [PeriodFiles.JobsName] = jobs.ToArray(),
                        }
                    ),
                    sees ?? (_ => true)
                )
        );

    private static byte[] Changed(SafeWorkPeriod period, Action<JsonNode> change)
    {
        var jobs = JsonNode.Parse(period.Evidence.Jobs.Bytes.Span)!;
        change(jobs);
        return Encoding.UTF8.GetBytes(jobs.ToJsonString());
    }

    private static long? Last(Counter counter, string record)
    {
        var newest = counter.Rows.Versions(record)[^1];
        return Math.Max(newest.Index, newest.AssessmentIndex!.Value);
    }

    private sealed class NeverAsked : IRowReading
    {
        public long Covered => throw new NotSupportedException();

        public RowPage<RecordRow> Records(RecordFilter filter, RowPaging paging) =>
            throw new NotSupportedException();

        public RowPage<UnitRow> Units(UnitFilter filter, RowPaging paging) =>
            throw new NotSupportedException();

        public RowPage<FindingRow> Findings(FindingFilter filter, RowPaging paging) =>
            throw new NotSupportedException();

        public ImmutableArray<RecordRow> Versions(string record) => throw new NotSupportedException();

        public ImmutableArray<RecordRow> OfDays(string site, DateOnly from, DateOnly until) =>
            throw new NotSupportedException();

        public ImmutableArray<RecordRow> Shown(ShownFilter filter) => throw new NotSupportedException();

        public AnsweredKey? Answer(SubmissionKey key) => throw new NotSupportedException();

        public IReadOnlyList<KeptRows> Kept(long from, long until) => throw new NotSupportedException();
    }
}
