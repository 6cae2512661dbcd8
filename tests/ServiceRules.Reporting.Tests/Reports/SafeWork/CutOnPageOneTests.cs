using System.Globalization;
using ServiceRules.Application.Assessing;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Pdf;
using ServiceRules.Reporting.Reports;
using ServiceRules.Reporting.Reports.SafeWork;

namespace ServiceRules.Reporting.Tests.Reports.SafeWork;

/// <summary>However much there is to tell, what needs action stands on page one; what is cut there names the page that has it.</summary>
public sealed class CutOnPageOneTests
{
    private const int Stretches = 300;

    [Fact]
    public void Box_HundredsOfStretches_LeavesRoomForWhatNeedsAction()
    {
        PlacedDocument document = LayOut(InAndOut());

        Assert.Contains(Printed("Needs action"), Words(document.Pages[0]), StringComparison.Ordinal);
        Assert.Contains(Printed("in 300 stretches: "), Words(document.Pages[0]), StringComparison.Ordinal);
    }

    [Fact]
    public void Box_WhatIsCut_StandsOnThePageThatIsNamed()
    {
        PlacedDocument document = LayOut(InAndOut());
        int named = Enumerable
            .Range(1, document.Pages.Length)
            .Single(page =>
                Words(document.Pages[0])
                    .Contains(
                        Printed(
                            string.Create(CultureInfo.InvariantCulture, $"and 296 more, see page {page}, ")
                        ),
                        StringComparison.Ordinal
                    )
                || Words(document.Pages[0])
                    .Contains(
                        Printed(
                            string.Create(CultureInfo.InvariantCulture, $"and 296 more, see page {page};")
                        ),
                        StringComparison.Ordinal
                    )
            );

        Assert.Contains(
            Printed(ProtectedSection.Title),
            Words(document.Pages[named - 1]),
            StringComparison.Ordinal
        );
        // The last of them, read off the record below.
        Assert.Contains(
            Printed("08:29:56 to 08:29:58"),
            string.Concat(document.Pages.Select(Words)),
            StringComparison.Ordinal
        );
    }

    // In for two seconds of every four, and the isolation never proven.
    private static Assessed InAndOut()
    {
        ServiceRecord job = SafeWorkSamples.ByTwo;
        var start = new DateTime(2026, 4, 13, 8, 10, 0, DateTimeKind.Unspecified);
        TimelineEvent At(TimelineEventKind kind, int seconds) =>
            new()
            {
                Kind = kind,
                At = SafeWorkSamples.Time(
                    start.AddSeconds(seconds).ToString("yyyy-MM-ddTHH:mm:ss", CultureInfo.InvariantCulture)
                        + "+01:00"
                ),
                Actor = new("tech-01"),
            };
        return SampleJobs.Judge(
            job with
            {
                Timeline =
                [
                    .. job.Timeline.Where(one =>
                        one.Kind
                            is not (
                                TimelineEventKind.WorkStarted
                                or TimelineEventKind.WorkStopped
                                or TimelineEventKind.IsolationVerified
                            )
                    ),
                    .. Enumerable
                        .Range(0, Stretches)
                        .SelectMany(one =>
                            new[]
                            {
                                At(TimelineEventKind.WorkStarted, one * 4),
                                At(TimelineEventKind.WorkStopped, (one * 4) + 2),
                            }
                        ),
                ],
            }
        );
    }

    private static PlacedDocument LayOut(Assessed job) =>
        SafeWorkReport.LayOut(job, ReportTerms.Default, SampleReport.Statement, FontMeasure.Shipped);

    private static string Words(PlacedPage page) =>
        Layout.Printable.Of(string.Concat(new PlacedDocument([page]).Texts().Select(text => text.Content)));

    private static string Printed(string words) =>
        Layout.Printable.Of(VisibleText.Of(words, Face.Text, FontMeasure.Shipped));
}
