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

    [Fact]
    public void LayOut_FewJobs_CountsThemAndTellsTheOpenOneFirst()
    {
        var document = LayOut(Few());

        var first = Words([document.Pages[0]]);
        var open = first.IndexOf(Told("F-open ·"), StringComparison.Ordinal);
        var closed = first.IndexOf(Told("F-bare ·"), StringComparison.Ordinal);
        Assert.Contains(Told("1 record shows safe work"), first, StringComparison.Ordinal);
        Assert.Contains(Told("1 safe work not shown"), first, StringComparison.Ordinal);
        Assert.Contains(Told("1 in progress"), first, StringComparison.Ordinal);
        Assert.True(open < 0 || open < closed, "the open job stands first where it needs action");
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
        Assert.All(
            SafeWorkFindings.Of(bare.job).Open.Where(one => one.Weighs),
            one => Assert.Contains(Told(one.Finding.Statement), all, StringComparison.Ordinal)
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
