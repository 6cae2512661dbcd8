using ServiceRules.Application.Assessing;
using ServiceRules.Application.Reports;
using ServiceRules.Application.SafeWork;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Pdf;
using ServiceRules.Reporting.Reports;
using ServiceRules.Reporting.Tests.Verifying;
using ServiceRules.Reporting.Verifying;

namespace ServiceRules.Reporting.Tests.Reports.SafeWork;

public sealed class SafeWorkReportTests
{
    private static readonly Assessed Clean = SampleJobs.Judge(SafeWorkSamples.ByTwo);
    private static readonly Assessed Bare = SampleJobs.Judge(SafeWorkSamples.SecondWithoutLock);

    private static PlacedDocument LayOut(Assessed job) =>
        SafeWorkReport.LayOut(job, ReportTerms.Default, SampleReport.Statement, FontMeasure.Shipped);

    private static byte[] Write(Assessed job) =>
        SafeWorkReport.Write(job, ReportTerms.Default, SampleReport.Key, SampleReport.IssuedAt);

    private static string Words(Assessed job) =>
        Layout.Printable.Of(string.Concat(LayOut(job).Texts().Select(text => text.Content)));

    private static void AssertTells(string printed, string words) =>
        Assert.Contains(
            Layout.Printable.Of(VisibleText.Of(words, Face.Text, FontMeasure.Shipped)),
            printed,
            StringComparison.Ordinal
        );

    private static VerifiedReport Verify(byte[] file) =>
        new VerifyReport(
            new PdfReportReader([SampleReport.Key.Certificate]),
            new Judge(),
            new ReportRedrawing()
        ).Verify(file);

    [Fact]
    public void LayOut_TwoPeopleEachUnderTheirLock_TellsWhoWasProtectedWhen()
    {
        var printed = Words(Clean);

        Assert.Equal(SafeWorkStanding.Shown, SafeWorkFindings.Of(Clean).Standing);
        AssertTells(printed, "Record shows safe work");
        // 08:10:00 to 08:30:00 and 08:10:40 to 08:29:00, read off the fixture.
        AssertTells(printed, "tech-01: hands in 08:10 to 08:30 (18, 21), 20 min, all of it protected");
        AssertTells(
            printed,
            "tech-05: hands in 08:10:40 to 08:29 (19, 20), 18 min 20 s, all of it protected"
        );
        AssertTells(printed, "L-51 by tech-05 08:06 to 08:32:50 (12, 26)");
    }

    [Fact]
    public void LayOut_OneWithoutLock_StatesTheUnprotectedMinutesOfThatPersonAlone()
    {
        var printed = Words(Bare);

        Assert.Equal(SafeWorkStanding.NotShown, SafeWorkFindings.Of(Bare).Standing);
        AssertTells(printed, "Safe work not shown");
        AssertTells(printed, "tech-05: hands in 18 min 20 s, unprotected 18 min 20 s");
        AssertTells(printed, "tech-01: hands in 20 min, unprotected 0 min");
    }

    [Fact]
    public void LayOut_NotShown_IsToldInFullOnPageOneAndByLetterOnTheLanes()
    {
        var document = LayOut(Bare);
        var open = SafeWorkFindings.Of(Bare).Open.Where(one => one.Kind == SafeWorkKind.Duty).ToList();

        var first = Layout.Printable.Of(
            string.Concat(new PlacedDocument([document.Pages[0]]).Texts().Select(text => text.Content))
        );

        Assert.NotEmpty(open);
        Assert.All(open, one => AssertTells(first, one.Finding.Statement));
        AssertTells(
            Words(Bare),
            $"A to C record does not show: {open[0].Rule.Title.ToLowerInvariant()} (3 duties for one reason)"
        );
    }

    [Fact]
    public void LayOut_EveryEvent_IsToldWithItsPlaceInTheAttachedRecord()
    {
        var printed = Words(Bare);

        Assert.All(
            Bare.Record.Timeline.Select((_, index) => index),
            index => AssertTells(printed, $"/timeline/{index}")
        );
    }

    [Fact]
    public void LayOut_OpenJob_SaysThatItIsOpenAndCallsNothingSafe()
    {
        var open = SampleJobs.Judge(SafeWorkSamples.MidWay);

        var printed = Words(open);

        Assert.Equal(RecordState.Open, open.Assessment.State);
        AssertTells(printed, "The job is still open.");
        Assert.DoesNotContain(
            Layout.Printable.Of("Record shows safe work"),
            printed,
            StringComparison.Ordinal
        );
    }

    /// <summary>What comes after the work is not missing while the work is not begun.</summary>
    [Fact]
    public void LayOut_OpenJob_TellsWhatIsToComeApartFromWhatIsMissing()
    {
        var printed = Words(SampleJobs.Judge(SafeWorkSamples.MidWay));

        var later = printed.IndexOf(
            Layout.Printable.Of("To come after the work, before it goes out"),
            StringComparison.Ordinal
        );
        Assert.True(later > printed.IndexOf(Layout.Printable.Of("Needs action"), StringComparison.Ordinal));
        Assert.True(
            printed.IndexOf(Layout.Printable.Of("guards back"), later, StringComparison.Ordinal) > later
        );
    }

    /// <summary>Hands out and locks off, the job going on: nobody may simply go back in.</summary>
    [Fact]
    public void LayOut_OpenJobAfterTheLocksCameOff_SaysWhoMayNotPutHandsInAgain()
    {
        var released = SampleJobs.Judge(SafeWorkSamples.Released);

        var document = LayOut(released);

        var first = Layout.Printable.Of(
            string.Concat(new PlacedDocument([document.Pages[0]]).Texts().Select(text => text.Content))
        );
        foreach (var person in new[] { "tech-01", "tech-05" })
        {
            AssertTells(
                first,
                $"Not yet: {person} may not put hands in again; the record does not show engine start isolated again after"
            );
        }
        AssertTells(first, "make safe again, the whole of it, and enter it first.");
        Assert.DoesNotContain(
            Layout.Printable.Of("No duty that is due by now is open."),
            first,
            StringComparison.Ordinal
        );
        Assert.DoesNotContain(
            Layout.Printable.Of("may not put hands in again"),
            Words(Clean),
            StringComparison.Ordinal
        );
    }

    /// <summary>A fault of the site's registers is told, and is no fault of who did the work.</summary>
    [Fact]
    public void LayOut_EveryRegisterFault_IsToldOnceAndWeighsOnNothing()
    {
        var lost = SampleJobs.Judge(
            SafeWorkSamples.ByTwo with
            {
                Machine = SafeWorkSamples.ByTwo.Machine with { Id = new("M-99") },
            }
        );
        var registers = SafeWorkFindings
            .Of(lost)
            .Open.Where(one => one.Kind == SafeWorkKind.Programme)
            .ToList();

        var printed = Words(lost);

        Assert.NotEmpty(registers);
        Assert.All(registers, one => Assert.False(one.Weighs));
        Assert.All(registers, one => AssertTells(printed, one.Finding.Statement));
        AssertTells(printed, "Apart from what was done:");
    }

    [Fact]
    public void LayOut_NoProcedure_SaysThatProtectionCannotBeTold()
    {
        var lost = SampleJobs.Judge(
            SafeWorkSamples.ByTwo with
            {
                Machine = SafeWorkSamples.ByTwo.Machine with { Id = new("M-99") },
            }
        );

        AssertTells(Words(lost), "protection cannot be told: no written procedure is registered");
    }

    [Fact]
    public void LayOut_NoTimelineAtAll_IsToldAndDrawn()
    {
        var empty = SampleJobs.Judge(SafeWorkSamples.ByTwo with { Timeline = [] });

        AssertTells(Words(empty), "The record has no make-safe or work events.");
    }

    /// <summary>The report says what the record shows; that somebody complies, only a person may say.</summary>
    [Fact]
    public void LayOut_AnyJob_NeverSaysThatAnybodyComplies()
    {
        Assert.All(
            new[] { Clean, Bare },
            job =>
            {
                var printed = Words(job).ToLowerInvariant();
                var sentence = Layout.Printable.Of("it does not say that anyone complies with a law");
                Assert.Contains(sentence, printed, StringComparison.Ordinal);
                var rest = printed.Replace(sentence, "", StringComparison.Ordinal);
                Assert.DoesNotContain("compl", rest, StringComparison.Ordinal);
                Assert.DoesNotContain("violat", rest, StringComparison.Ordinal);
                Assert.DoesNotContain("guilty", rest, StringComparison.Ordinal);
            }
        );
    }

    [Fact]
    public void Verify_AsWritten_IsGenuine() =>
        Assert.All(
            new[] { Clean, Bare, SampleJobs.Judge(SafeWorkSamples.MidWay) },
            job =>
            {
                var verified = Verify(Write(job));
                Assert.True(verified.Standing == ReportStanding.Genuine, string.Join('\n', verified.Points));
            }
        );

    [Fact]
    public void Verify_AnotherVerdictDrawnOverTheEvidence_FailsByName()
    {
        var forged = Bare with
        {
            Assessment = Bare.Assessment with
            {
                Findings =
                [
                    .. Bare.Assessment.Findings.Select(finding => finding with { Verdict = Verdict.Met }),
                ],
            },
        };

        var verified = Verify(Write(forged));

        Assert.Equal(ReportStanding.NotGenuine, verified.Standing);
        Assert.Contains(
            verified.Points,
            point => point.Name == VerifyReport.Drawn && point.Result == PointResult.Failed
        );
    }

    [Fact]
    public void Verify_ServiceReportUnderTheTitleOfThisOne_FailsByName()
    {
        var service = new ForgedReport(
            JobReport.Write(Clean, ReportTerms.Default, SampleReport.Key, SampleReport.IssuedAt)
        );
        var information = service.Find("/Title");
        service[information] = service[information]
            .Replace("(Service report", "(Safe-work report", StringComparison.Ordinal);

        var verified = Verify(service.Sign(SampleReport.Key));

        Assert.Contains(
            verified.Points,
            point => point.Name == VerifyReport.Drawn && point.Result == PointResult.Failed
        );
    }

    [Fact]
    public void LayOut_Twice_IsTheSame() => Assert.Equal(LayOut(Bare).Texts(), LayOut(Bare).Texts());

    [Theory]
    [InlineData(new[] { 1, 2, 4, 5, 6, 9 }, "1, 2, 4–6, 9")]
    [InlineData(new[] { 7 }, "7")]
    [InlineData(new int[0], "")]
    public void NumberRuns_AreDrawnTogetherFromThree(int[] numbers, string expected) =>
        Assert.Equal(
            expected,
            string.Join(", ", ServiceRules.Reporting.Reports.SafeWork.NumberRuns.Of(numbers))
        );

    [Theory]
    [InlineData(0, "0 min")]
    [InlineData(40, "40 s")]
    [InlineData(720, "12 min")]
    [InlineData(1100, "18 min 20 s")]
    [InlineData(3900, "1 h 05 min")]
    public void DurationPrint_IsSaidAsPeopleSayIt(int seconds, string expected) =>
        Assert.Equal(
            expected,
            ServiceRules.Reporting.Reports.Words.DurationPrint.Of(TimeSpan.FromSeconds(seconds))
        );
}
