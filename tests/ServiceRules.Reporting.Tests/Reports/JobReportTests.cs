using ServiceRules.Application.Assessing;
using ServiceRules.Application.Demo;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Pdf;
using ServiceRules.Reporting.Reports;
using ServiceRules.Reporting.Reports.Words;
using ServiceRules.Reporting.Verifying;
using ServiceRules.TestKit;

namespace ServiceRules.Reporting.Tests.Reports;

public sealed class JobReportTests : IDisposable
{
    private static readonly DateTimeOffset IssuedAt = SampleReport.IssuedAt.AddDays(42);

    private readonly Scratch _scratch = new();

    public void Dispose() => _scratch.Dispose();

    private static PlacedDocument LayOut(Assessed job, ReportTerms? terms = null) =>
        JobReport.LayOut(
            job,
            terms ?? ReportTerms.Default,
            SampleReport.Statement with
            {
                At = IssuedAt,
            },
            FontMeasure.Shipped
        );

    private static string Words(PlacedDocument document) =>
        Layout.Printable.Of(string.Concat(document.Texts().Select(text => text.Content)));

    private static void AssertTells(string printed, string words) =>
        Assert.Contains(
            Layout.Printable.Of(VisibleText.Of(words, Face.Text, FontMeasure.Shipped)),
            printed,
            StringComparison.Ordinal
        );

    private static byte[] Write(Assessed job) =>
        JobReport.Write(job, ReportTerms.Default, SampleReport.Key, IssuedAt);

    [Fact]
    public void LayOut_HeightCheckOfTwelveUnits_FitsOnePage()
    {
        var job = SampleJobs.HeightCheckOfTwelve;

        var document = LayOut(job);

        Assert.Equal(12, job.Record.Units.Length);
        Assert.Contains(job.Assessment.Units, unit => unit.Outcome.Disposition == Disposition.Hold);
        Assert.Single(document.Pages);
        Assert.All(job.Record.Units, unit => AssertTells(Words(document), unit.Id.Text));
    }

    /// <summary>Guards found faulty stop the whole machine: told in full there, and of the unit only where that is.</summary>
    [Theory]
    [InlineData("full-service-125", false)]
    [InlineData("height-check", true)]
    public void LayOut_FaultyGuards_AreToldOnce(string sample, bool isBrief)
    {
        var record = SafeWork.SafeWorkSamples.Read(sample);
        var guards = new Reading
        {
            Quantity = MeasuredQuantity.Guards,
            Observed = new Observation.Seen(Condition.Faulty),
        };
        var job = SampleJobs.Judge(
            record with
            {
                Tasks = isBrief ? [.. record.Tasks, ServiceTask.Inspect] : record.Tasks,
                Units =
                [
                    record.Units[0] with
                    {
                        Entries =
                        [
                            .. record
                                .Units[0]
                                .Entries.Where(entry =>
                                    entry is not Reading { Quantity: MeasuredQuantity.Guards }
                                ),
                            guards,
                        ],
                    },
                    .. record.Units.Skip(1),
                ],
            }
        );
        Assert.Contains(
            job.Assessment.Findings,
            finding => finding is { Rule: "guards-sound", Verdict: Verdict.NotMet, Subject: Subject.Unit }
        );

        var printed = Words(LayOut(job));

        Assert.Equal(isBrief, new JobView(job, ReportTerms.Default, FontMeasure.Shipped, IssuedAt).IsBrief);
        // At the top, why it is kept in, and in full under safe work.
        Assert.Equal(2, Count(printed, Layout.Printable.Of("found faulty")));
        Assert.Equal(1, Count(printed, Layout.Printable.Of("told under safe work: safety defects closed")));
    }

    private static int Count(string text, string part) =>
        text.Split(part, StringSplitOptions.None).Length - 1;

    /// <summary>Who let something out, until when and why, stands beside the finding and at the top, on the brief page too.</summary>
    [Theory]
    [InlineData("height-check-twelve")]
    [InlineData("full-service")]
    public void LayOut_WaivedFinding_TellsByWhomUntilWhenAndWhy(string sample)
    {
        var bare = SampleJobs.Judge(SampleJobs.Read(sample));
        var held = bare.Assessment.Findings.First(finding =>
            finding is { Effect: Effect.Hold, Subject: Subject.Unit, Verdict: Verdict.NotMet }
        );
        var waiver = new Waiver(
            held.Rule,
            ((Subject.Unit)held.Subject).Id.Text,
            new Id<Participant>("lead-01"),
            "the gauge comes on Friday",
            new DateOnly(2026, 4, 1),
            new DateOnly(2026, 4, 30)
        );
        var job = SampleJobs.Judge(bare.Record, SampleJobs.DemoSite with { Waivers = [waiver] });
        Assert.Contains(job.Assessment.Findings, finding => finding.LetOut is not null);

        var printed = Words(LayOut(job));

        var told = Layout.Printable.Of("waived by `lead-01` until 2026-04-30: the gauge comes on Friday");
        Assert.True(printed.Split(told).Length >= 3, printed);
    }

    [Fact]
    public void LayOut_FullService_TellsEveryFindingThatIsNotInInItsOwnWords()
    {
        var job = SampleJobs.FullService;
        var notIn = job
            .Assessment.Findings.Where(finding => finding.Verdict is Verdict.NotMet or Verdict.Unproven)
            .ToList();

        var printed = Words(LayOut(job));

        Assert.NotEmpty(notIn);
        Assert.All(notIn, finding => AssertTells(printed, finding.Statement));
    }

    [Fact]
    public void LayOut_FullService_TellsDigestsRulesAndSources()
    {
        var job = SampleJobs.FullService;

        var printed = Words(LayOut(job));

        AssertTells(printed, job.Evidence.Record.Hash.ToString());
        AssertTells(printed, job.Evidence.Assessment.Hash.ToString());
        AssertTells(printed, "a duty of safe work, local codes come first");
        AssertTells(printed, "common practice, no source");
        AssertTells(printed, "Front roller parallel");
    }

    [Fact]
    public void LayOut_Units_CarryMarkAndWordForEachOutcome()
    {
        var printed = Words(LayOut(SampleJobs.FullService));

        AssertTells(printed, "Unit U-01-1: may go out");
        AssertTells(printed, "Unit U-01-3: hold");
    }

    [Fact]
    public void LayOut_SiteThatSaysCylinder_ReadsItsOwnWords()
    {
        var printed = Words(
            LayOut(SampleJobs.FullService, ReportTerms.Default with { Trade = TradeWords.Cylinder })
        );

        AssertTells(printed, "125 mm cylinder, 9 blades, 510 mm, moving bottom blade");
        AssertTells(printed, "reel-125-9-510");
    }

    [Fact]
    public void LayOut_OpenJob_SaysSoAndReleasesNothing()
    {
        var open = SampleJobs.Judge(SampleJobs.Read("full-service") with { SignOff = null });

        var printed = Words(LayOut(open));

        AssertTells(printed, "The job is still open.");
        Assert.DoesNotContain(Layout.Printable.Of("May go out"), printed, StringComparison.Ordinal);
    }

    [Fact]
    public void LayOut_HostileAndLongWords_ArePlacedAndShown()
    {
        var record = SampleJobs.Read("full-service");
        var complaint = string.Concat(
            Enumerable.Repeat("streaks \U0001F600 \u202E <b>&amp;</b> (\\) äß ", 120)
        );
        var token = new string('x', 400);
        var hostile = record with
        {
            Complaint = complaint,
            Photos = [new Photo(new string('a', 64), token, null)],
        };

        var printed = Words(LayOut(SampleJobs.Judge(hostile)));

        // The words share the page with a second column, so they are counted, not read in one piece.
        Assert.Equal(120, printed.Split("[U+1F600][U+202E]<b>&amp;</b>").Length - 1);
        AssertTells(printed, token);
    }

    [Fact]
    public void LayOut_DemoJobsOfEveryKind_StayInsideTheirMargins()
    {
        const int EveryNth = 23;
        var jobs = DemoScenario
            .Make(DemoScenario.UsualSeed, SampleJobs.DemoSite)
            .Where((_, index) => index % EveryNth == 0)
            .Select(job => SampleJobs.Judge(job.Record))
            .ToList();

        Assert.True(jobs.Count > 10);
        Assert.All(
            jobs,
            job =>
                Assert.All(
                    LayOut(job).Texts(),
                    text =>
                    {
                        Assert.InRange(text.X, 33.9, PageDesign.A4Width - 34);
                        Assert.InRange(text.X + text.Width, 34, PageDesign.A4Width - 33.9);
                        Assert.InRange(text.Baseline, 20, PageDesign.A4Height - 20);
                    }
                )
        );
    }

    [Fact]
    public void MarkOf_ReadingsInButProcedureBroken_ShowsTheBreach()
    {
        var job = new JobView(SampleJobs.FullService, ReportTerms.Default, FontMeasure.Shipped, IssuedAt);
        var unit = job.Units.Single(one => one.Work.Id.Text == "U-01-2");

        var clearances = unit.Telling(MeasuredQuantity.Clearance);

        Assert.NotEmpty(clearances);
        Assert.All(clearances, place => Assert.Equal(Verdict.Met, place.Comparison.Verdict));
        Assert.Equal(Verdict.NotMet, unit.MarkOf(MeasuredQuantity.Clearance)!.Verdict);
    }

    [Fact]
    public void LayOut_Twice_IsTheSame() =>
        Assert.Equal(LayOut(SampleJobs.FullService).Texts(), LayOut(SampleJobs.FullService).Texts());

    [Fact]
    public void Write_FullService_VerifiesAndCarriesItsEvidence()
    {
        var job = SampleJobs.FullService;

        var verified = PdfVerification.Verify(
            Write(job),
            VerificationGrounds.Of([SampleReport.Key.Certificate])
        );

        Assert.True(verified.IsGenuine, string.Join('\n', verified.Points));
        Assert.Equal(
            [
                EvidenceFiles.AssessmentName,
                EvidenceFiles.ContextName,
                EvidenceFiles.RecordName,
                EvidenceFiles.RulesName,
            ],
            verified.Attachments.Keys
        );
        Assert.Equal(job.Evidence.Record.Bytes.ToArray(), verified.Attachments[EvidenceFiles.RecordName]);
    }

    [SkippableTheory]
    [InlineData(true)]
    [InlineData(false)]
    public void Write_Job_SatisfiesTheOrdinaryTools(bool full)
    {
        var job = full ? SampleJobs.FullService : SampleJobs.HeightCheckOfTwelve;
        var path = _scratch.Write("job.pdf", Write(job));

        var signature = Tool.Require("pdfsig").Run(path).StandardOutput;
        var check = Tool.Require("qpdf").Run("--check", path);
        var text = Tool.Require("pdftotext").Run("-raw", path, "-").StandardOutput;

        Assert.Contains("Signature is Valid.", signature, StringComparison.Ordinal);
        Assert.Contains("Total document signed", signature, StringComparison.Ordinal);
        Assert.True(check.ExitCode == 0, check.ToString());
        Assert.Contains("What identity and time rest on", text, StringComparison.Ordinal);
        Assert.Contains("2 of", text, StringComparison.Ordinal);
    }
}
