using System.Text;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Filed;
using ServiceRules.Application.SafeWork;
using ServiceRules.Formats.Records;
using ServiceRules.Formats.Registers;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports;
using ServiceRules.Reporting.Verifying;

namespace ServiceRules.Reporting.Tests.Reports.SafeWork;

/// <summary>What page one says of files that contradict one another, and of registers that came with a record.</summary>
public sealed class HandedInTests : IDisposable
{
    private readonly Scratch _scratch = new();

    public void Dispose() => _scratch.Dispose();

    [Fact]
    public void Period_TwoFilesOfOneIdentity_AreBothNamedAndNeedAction()
    {
        var record = SafeWorkSamples.ByTwo with { Id = new("F-two") };
        _scratch.Write("amend-1.json", RecordFormat.Current.Write(record));
        _scratch.Write(
            "amend-2.json",
            RecordFormat.Current.Write(SafeWorkSamples.SecondWithoutLock with { Id = new("F-two") })
        );

        var words = PageOne(SafeWorkSamples.Period(_scratch, SafeWorkSamples.ByTwo));

        AssertTells(words, "1 of 2 jobs needs action");
        AssertTells(words, "F-two · not judged · amend-1.json and amend-2.json contradict each other");
        AssertTells(words, "2 files could not be used and are not judged: amend-1.json, amend-2.json");
    }

    /// <summary>A procedure that leaves a source out shows hands no safer than the site's own.</summary>
    [Fact]
    public void Record_WithRegistersOtherThanTheSites_SaysSoOnPageOneAndIsHeldToTheSitesSources()
    {
        var assessed = Assess(ContextOf(gravityAlone: true));
        var words = Layout.Printable.Of(
            string.Concat(
                SafeWorkReport
                    .LayOut(assessed, ReportTerms.Default, SampleReport.Statement, FontMeasure.Shipped)
                    .Texts()
                    .Select(text => text.Content)
            )
        );

        AssertTells(words, "are other than the site's of that day: procedures.");
        AssertTells(words, "Registers: The registers were handed in with the record");
        Assert.Equal(SafeWorkStanding.NotShown, SafeWorkFindings.Of(assessed).Standing);
    }

    [Fact]
    public void Record_WithTheSitesOwnRegisters_SaysNothing() =>
        Assert.Empty(Assess(ContextOf(gravityAlone: false)).Context.OtherThanTheSites);

    [Fact]
    public void Period_WithRegistersOtherThanTheSites_NamesTheJob()
    {
        _scratch.Write($"{Job.Id.Text}.context.json", ContextOf(gravityAlone: true));

        var words = PageOne(SafeWorkSamples.Period(_scratch, Job));

        AssertTells(
            words,
            $"The registers of 1 job were handed in with the record and are other than the site's: {Job.Id.Text}."
        );
    }

    private static Domain.Records.ServiceRecord Job =>
        SafeWorkSamples.SecondWithoutLock with
        {
            Timeline =
            [
                .. SafeWorkSamples.SecondWithoutLock.Timeline.Where(one =>
                    one.Lock is null && one.Kind != Domain.Timeline.TimelineEventKind.IsolatorOperated
                ),
            ],
        };

    private static byte[] ContextOf(bool gravityAlone)
    {
        var own = ContextFreezer.Freeze(SampleJobs.DemoSite, Job);
        return ContextFormat.Current.Write(
            !gravityAlone
                ? own
                : own with
                {
                    Procedures =
                    [
                        .. own.Procedures.Select(one =>
                            one with
                            {
                                Sources = [.. one.Sources.Where(source => source.Id.Text == "gravity")],
                            }
                        ),
                    ],
                }
        );
    }

    private Assessed Assess(byte[] context)
    {
        var file = _scratch.Write("job.json", RecordFormat.Current.Write(Job));
        _scratch.Write("job.context.json", context);
        var gathered = new RecordGathering(
            new PdfReportReader([]),
            SampleJobs.DemoBook,
            SampleJobs.DemoSite.Name
        ).Gather<FiledRecord>([file], filed => filed);
        return new AssessRecord(SampleJobs.DemoBook, SampleJobs.DemoSite).Assess(
            Assert.Single(gathered.Kept)
        );
    }

    private static string PageOne(SafeWorkPeriod period)
    {
        var laid = SafeWorkPeriodReport.LayOut(
            period,
            ReportTerms.Default,
            SampleReport.Statement,
            FontMeasure.Shipped
        );
        var words = new StringBuilder();
        foreach (var text in new PlacedDocument([laid.Pages[0]]).Texts())
        {
            _ = words.Append(text.Content);
        }

        return Layout.Printable.Of(words.ToString());
    }

    private static void AssertTells(string printed, string words) =>
        Assert.Contains(Layout.Printable.Of(words), printed, StringComparison.Ordinal);
}
