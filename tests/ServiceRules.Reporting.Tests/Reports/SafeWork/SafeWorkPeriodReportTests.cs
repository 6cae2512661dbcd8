using System.Text;
using System.Text.Json.Nodes;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Reports;
using ServiceRules.Application.SafeWork;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Evidence;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Pdf;
using ServiceRules.Reporting.Reports;
using ServiceRules.Reporting.Reports.SafeWork;
using ServiceRules.Reporting.Verifying;

namespace ServiceRules.Reporting.Tests.Reports.SafeWork;

public sealed class SafeWorkPeriodReportTests : IDisposable
{
    private readonly Scratch _scratch = new();

    public void Dispose() => _scratch.Dispose();

    private SafeWorkPeriod Few() =>
        SafeWorkSamples.Period(
            _scratch,
            [
                SafeWorkSamples.ByTwo,
                SafeWorkSamples.SecondWithoutLock with
                {
                    Id = new("F-bare"),
                },
                SafeWorkSamples.MidWay with
                {
                    Id = new("F-open"),
                },
            ]
        );

    private static PlacedDocument LayOut(SafeWorkPeriod period) =>
        SafeWorkPeriodReport.LayOut(period, ReportTerms.Default, SampleReport.Statement, FontMeasure.Shipped);

    private static byte[] Write(SafeWorkPeriod period) =>
        SafeWorkPeriodReport.Write(period, ReportTerms.Default, SampleReport.Key, SampleReport.IssuedAt);

    private static string Words(IEnumerable<PlacedPage> pages) =>
        Layout.Printable.Of(
            string.Concat(new PlacedDocument([.. pages]).Texts().Select(text => text.Content))
        );

    private static string Told(string words) => Layout.Printable.Of(words);

    private static VerifiedReport Verify(byte[] file) =>
        new VerifyReport(
            new PdfReportReader([SampleReport.Key.Certificate]),
            new Judge(),
            new ReportRedrawing()
        ).Verify(file);

    private static void AssertFails(string point, byte[] file)
    {
        var verified = Verify(file);

        Assert.Equal(ReportStanding.NotGenuine, verified.Standing);
        Assert.Contains(verified.Points, one => one.Name == point && one.Result == PointResult.Failed);
    }

    private static CanonicalDocument Changed(CanonicalDocument document, Action<JsonNode> change)
    {
        var node = JsonNode.Parse(document.Bytes.Span)!;
        change(node);
        return CanonicalJson
            .Canonicalise(Encoding.UTF8.GetBytes(node.ToJsonString()))
            .TryGet(out var changed, out var refusal)
            ? changed
            : throw new InvalidOperationException(refusal.ToString());
    }

    /// <summary>The same, as jobs that an account, a key and nobody who was asked sent to a service.</summary>
    private static SafeWorkPeriod Sent(SafeWorkPeriod period)
    {
        string?[] senders = ["account:0123456789abcdef", "key:0123456789abcdef", null];
        return period with
        {
            Senders = [.. senders],
            Evidence = period.Evidence with
            {
                Jobs = Changed(
                    period.Evidence.Jobs,
                    jobs =>
                    {
                        jobs["jobs"]![0]!["sender"] = senders[0];
                        jobs["jobs"]![1]!["sender"] = senders[1];
                    }
                ),
            },
        };
    }

    [Fact]
    public void Write_JobsThatWereSentToAService_CountsThemAndIsGenuine()
    {
        var sent = Sent(Few());

        Assert.Contains(
            Told(
                "of the jobs 1 filed over the service by accounts that had signed in, 1 filed over the service with keys of programs and 1 of which nothing tells who sent them,"
            ),
            Words(LayOut(sent).Pages),
            StringComparison.Ordinal
        );
        var verified = Verify(Write(sent));
        Assert.True(verified.Standing == ReportStanding.Genuine, string.Join('\n', verified.Points));
    }

    [Fact]
    public void Verify_PagesThatCountOtherSendersThanTheJobsTell_AreNotGenuine()
    {
        var sent = Sent(Few());

        AssertFails(VerifyReport.Drawn, Write(sent with { Senders = [null, null, null] }));
        AssertFails(VerifyReport.Drawn, Write(Few() with { Senders = sent.Senders }));
    }

    /// <summary>Sixty of them without any lock, so that everything that page one can tell has to be told.</summary>
    [Fact]
    public void LayOut_HundredJobs_LeadsWithWhatNeedsActionOnOnePage()
    {
        const int Bare = 60;
        var records = SafeWorkSamples
            .Season(100)
            .Select(
                (record, index) =>
                    index < Bare ? SafeWorkSamples.Without(record, one => one.Lock is not null) : record
            )
            .ToList();
        var period = SafeWorkSamples.Period(_scratch, records);

        var document = LayOut(period);

        var first = Words([document.Pages[0]]);
        string[] inOrder =
        [
            "jobs need action",
            "Needs action",
            "What recurs, by duty",
            "it does not say that anyone complies with a law",
        ];
        var places = inOrder.Select(words => first.IndexOf(Told(words), StringComparison.Ordinal)).ToList();
        Assert.Equal(100, period.Jobs.Length);
        Assert.All(places, place => Assert.True(place >= 0, string.Join(' ', places)));
        Assert.Equal(places.Order(), places);
        Assert.Contains(Told("more jobs, told below"), first, StringComparison.Ordinal);
        Assert.Contains(Told("All jobs of the period"), Words(document.Pages), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(1, false)]
    [InlineData(2, true)]
    public void LayOut_DutyThatOneJobLeavesOpen_DoesNotRecur_OfTwoItDoes(int jobs, bool recurs)
    {
        var bare = Enumerable
            .Range(1, jobs)
            .Select(job => SafeWorkSamples.SecondWithoutLock with { Id = new($"F-bare-{job}") });

        var words = Words(LayOut(SafeWorkSamples.Period(_scratch, [SafeWorkSamples.ByTwo, .. bare])).Pages);

        Assert.Equal(recurs, words.Contains(Told("What recurs, by duty"), StringComparison.Ordinal));
    }

    /// <summary>Whatever has to go on behind it: no job that needs action is missing from page one.</summary>
    [Fact]
    public void LayOut_HundredJobsThatAllNeedAction_NamesEachOnPageOne()
    {
        var records = SafeWorkSamples
            .Season(100)
            .Select(record => SafeWorkSamples.Without(record, one => one.Lock is not null))
            .ToList();
        var period = SafeWorkSamples.Period(_scratch, records);

        var first = Words([LayOut(period).Pages[0]]);

        var needing = new PeriodView(period, ReportTerms.Default, FontMeasure.Shipped, SampleReport.IssuedAt)
            .NeedAction.Select(job => job.Job.Record.Id.Text)
            .ToList();
        Assert.True(needing.Count > 60, $"{needing.Count} need action");
        Assert.All(needing, job => Assert.Contains(Told(job), first, StringComparison.Ordinal));
    }

    [Fact]
    public void LayOut_OpenJobWithHandsIn_StandsOnPageOneThoughNothingIsMissed()
    {
        var period = SafeWorkSamples.Period(
            _scratch,
            [SafeWorkSamples.ByTwo, SafeWorkSamples.AtWork with { Id = new("F-going") }]
        );

        var first = Words([LayOut(period).Pages[0]]);

        Assert.Contains(Told("1 job is still open, hands in on 1 of them"), first, StringComparison.Ordinal);
        Assert.Contains(
            Told("hands in: tech-01 since 08:10, tech-05 since 08:10:40"),
            first,
            StringComparison.Ordinal
        );
    }

    /// <summary>Hands out and locks off on a job that goes on: whoever goes there reads that nobody may simply go back in.</summary>
    [Fact]
    public void LayOut_OpenJobAfterTheLocksCameOff_SaysWhoMayNotGoInAgain()
    {
        var period = SafeWorkSamples.Period(
            _scratch,
            [SafeWorkSamples.ByTwo, SafeWorkSamples.Released with { Id = new("F-released") }]
        );

        Assert.Contains(
            Told("no hands in shown. not in again before it is made safe anew: tech-01, tech-05. "),
            Words([LayOut(period).Pages[0]]),
            StringComparison.Ordinal
        );
    }

    /// <summary>Its entries were all received hours later: nobody knows how the unit stands now.</summary>
    [Fact]
    public void LayOut_OpenJobWithDoubtfulEntries_NeedsAction()
    {
        var doubtful = SafeWorkSamples.Each(
            SafeWorkSamples.AtWork,
            one => one with { At = SafeWorkSamples.Time(one.At.Text[..^6]) }
        );
        var period = SafeWorkSamples.Period(
            _scratch,
            [SafeWorkSamples.ByTwo, doubtful with { Id = new("F-doubt") }]
        );

        var first = Words([LayOut(period).Pages[0]]);

        Assert.Equal(2, period.Jobs.Length);
        Assert.Contains(Told("1 of 2 jobs needs action"), first, StringComparison.Ordinal);
        Assert.Contains(Told("not proven of the entries: "), first, StringComparison.Ordinal);
    }

    [Fact]
    public void LayOut_EntriesThatAreNotCredible_AreOneCauseAndNotSoManyDuties()
    {
        var period = SafeWorkSamples.Period(
            _scratch,
            [SafeWorkSamples.BackFilled, SafeWorkSamples.BackFilled with { Id = new("F-again") }]
        );

        var document = LayOut(period);

        var view = new PeriodView(period, ReportTerms.Default, FontMeasure.Shipped, SampleReport.IssuedAt);
        var recurring = Assert.Single(view.Recurring, duty => duty.Rule is null);
        Assert.True(recurring.Duties > 20, $"{recurring.Duties} duties");
        Assert.Matches(
            Told("not proven: ") + @"\d\d" + Told(" duties, entries not credible enough"),
            Words([document.Pages[0]])
        );
    }

    [Fact]
    public void LayOut_JobExemptByAClaim_IsCountedApart()
    {
        var period = SafeWorkSamples.Period(
            _scratch,
            [SafeWorkSamples.ByTwo, SafeWorkSamples.ByClaim with { Id = new("F-claim") }]
        );

        var words = Words(LayOut(period).Pages);

        Assert.Equal(2, period.Jobs.Length);
        Assert.Contains(Told("1 exempt by a claim"), words, StringComparison.Ordinal);
        Assert.Contains(
            Told("exempt from lockout by a claim decided by lead-01"),
            words,
            StringComparison.Ordinal
        );
        Assert.Contains(
            "\"exempt\":1",
            Encoding.UTF8.GetString(period.Evidence.Summary.Bytes.Span),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void LayOut_FewJobs_CountsThemAndTellsTheOpenOneApart()
    {
        var document = LayOut(Few());

        var first = Words([document.Pages[0]]);
        var open = first.IndexOf(Told("F-open ·"), StringComparison.Ordinal);
        var closed = first.IndexOf(Told("F-bare ·"), StringComparison.Ordinal);
        Assert.Contains(Told("1 record shows safe work"), first, StringComparison.Ordinal);
        Assert.Contains(Told("1 safe work not shown"), first, StringComparison.Ordinal);
        Assert.Contains(Told("1 in progress"), first, StringComparison.Ordinal);
        var goesOn = first.IndexOf(Told("Still open, nothing missed so far"), StringComparison.Ordinal);
        Assert.True(goesOn > closed && open > goesOn, "the open job stands after what needs action");
        Assert.True(closed > 0);
    }

    [Fact]
    public void LayOut_EveryOpenDuty_IsToldWithItsEntriesInTheAttachedJobs()
    {
        var period = Few();
        var bare = period
            .Jobs.Select((job, index) => (job, index))
            .Single(one => one.job.Record.Id.Text == "F-bare");

        var all = Words(LayOut(period).Pages);

        Assert.Contains(Told($"jobs.json /jobs/{bare.index}/record"), all, StringComparison.Ordinal);
        var open = SafeWorkFindings.Of(bare.job).Open.Where(one => one.Weighs).ToList();
        Assert.NotEmpty(open);
        Assert.All(
            Cause.Of(open).SelectMany(cause => cause.Statements),
            statement => Assert.Contains(Told(statement), all, StringComparison.Ordinal)
        );
        Assert.All(open, one => Assert.Contains(Told(one.Rule.Title), all, StringComparison.Ordinal));
    }

    /// <summary>Nobody but a person can say whether a claim is so, least of all with the machine running.</summary>
    [Fact]
    public void LayOut_JobExemptByAClaim_IsNamedOnPageOneWithWhoDecidedIt()
    {
        var claimed = SafeWorkSamples.ByClaim with { Id = new("F-exempt") };
        var period = SafeWorkSamples.Period(_scratch, [SafeWorkSamples.ByTwo, claimed]);

        var first = Words([LayOut(period).Pages[0]]);

        Assert.Contains(
            Told("No lockout, by a claim: for a person to look at"),
            first,
            StringComparison.Ordinal
        );
        Assert.Contains(
            Told("F-exempt · 2026-04-13 · M-01 · minor servicing in use, a claim decided by lead-01."),
            first,
            StringComparison.Ordinal
        );
        Assert.Contains(Told("1 exempt by a claim"), first, StringComparison.Ordinal);
    }

    /// <summary>With the machine running at work no claim takes lockout off.</summary>
    [Fact]
    public void LayOut_JobUnderAClaimOnWhichTheMachineRan_IsNotCountedAsExempt()
    {
        var period = SafeWorkSamples.Period(
            _scratch,
            [SafeWorkSamples.ByTwo, SafeWorkSamples.ByClaimRunning with { Id = new("F-ran") }]
        );

        var first = Words([LayOut(period).Pages[0]]);

        Assert.DoesNotContain(Told("No lockout, by a claim"), first, StringComparison.Ordinal);
        Assert.Contains(Told("F-ran"), first, StringComparison.Ordinal);
    }

    [Fact]
    public void LayOut_JobExemptByAClaimOnWhichTheMachineStood_SaysNothingOfRunning()
    {
        var period = SafeWorkSamples.Period(
            _scratch,
            [SafeWorkSamples.ByTwo, SafeWorkSamples.ByClaim with { Id = new("F-exempt") }]
        );

        var first = Words([LayOut(period).Pages[0]]);

        Assert.Contains(
            Told("F-exempt · 2026-04-13 · M-01 · minor servicing"),
            first,
            StringComparison.Ordinal
        );
        Assert.DoesNotContain(Told("The machine ran"), first, StringComparison.Ordinal);
    }

    [Fact]
    public void LayOut_SeveralDutiesOpenForOneReason_AreOneThingOnPageOne()
    {
        var first = Words([LayOut(Few()).Pages[0]]);

        Assert.Contains(
            Told("safe work not shown · not shown: work inside the protected interval (3 duties)."),
            first,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Verify_AsWritten_IsGenuine()
    {
        var verified = Verify(Write(Few()));

        Assert.True(verified.Standing == ReportStanding.Genuine, string.Join('\n', verified.Points));
        Assert.Contains(
            verified.Points,
            point =>
                point.Name == VerifyReport.Reproduced
                && point.Told.Contains("3 attached jobs", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Verify_SummaryThatSaysOther_FailsByName()
    {
        var period = Few();
        var files = period.Evidence with
        {
            Summary = Changed(period.Evidence.Summary, node => node["totals"]!["notShown"] = 0),
        };

        AssertFails(VerifyReport.Reproduced, Write(period with { Evidence = files }));
    }

    [Fact]
    public void Verify_JobChangedInTheAttachedOnes_FailsByName()
    {
        var period = Few();
        var files = period.Evidence with
        {
            Jobs = Changed(
                period.Evidence.Jobs,
                node => node["jobs"]![0]!["record"]!["timeline"]!.AsArray().RemoveAt(8)
            ),
        };

        AssertFails(VerifyReport.Drawn, Write(period with { Evidence = files }));
    }

    [Fact]
    public void Verify_BreachLeftOutOfThePages_FailsByName()
    {
        var period = Few();
        var whole = period.Jobs.Select(job =>
            job with
            {
                Assessment = job.Assessment with
                {
                    Findings =
                    [
                        .. job.Assessment.Findings.Where(finding => finding.Verdict != Verdict.NotMet),
                    ],
                },
            }
        );

        AssertFails(VerifyReport.Drawn, Write(period with { Jobs = [.. whole] }));
    }

    [Fact]
    public void Verify_JobsOutOfOrder_FailsByName()
    {
        var period = Few();
        var files = period.Evidence with
        {
            Jobs = Changed(
                period.Evidence.Jobs,
                node =>
                {
                    var jobs = node["jobs"]!.AsArray();
                    var last = jobs[2]!.DeepClone();
                    jobs.RemoveAt(2);
                    jobs.Insert(0, last);
                }
            ),
        };

        AssertFails(VerifyReport.Reproduced, Write(period with { Evidence = files }));
    }

    [Fact]
    public void LayOut_Twice_IsTheSame()
    {
        var period = Few();

        Assert.Equal(LayOut(period).Texts(), LayOut(period).Texts());
    }
}
