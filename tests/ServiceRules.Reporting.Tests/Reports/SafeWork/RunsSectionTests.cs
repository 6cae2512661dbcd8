using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Reporting.Pdf;
using ServiceRules.Reporting.Reports;

namespace ServiceRules.Reporting.Tests.Reports.SafeWork;

/// <summary>Nobody is locked out of a run: the pages name what kept people from it, who said so and who stood at the stop.</summary>
public sealed class RunsSectionTests
{
    private static ServiceRecord Lapped(params string[] named)
    {
        var lap = SafeWorkSamples.Read("lap");
        return lap with
        {
            Timeline =
            [
                .. lap.Timeline.Select(one =>
                    one.Kind == TimelineEventKind.AlternativeMeasuresRecorded
                        ? one with
                        {
                            Measures = [.. one.Measures, ProtectiveMeasure.SecondPersonAtStopControl],
                            Others = [.. named.Select(person => new Domain.Id<Participant>(person))],
                        }
                        : one
                ),
            ],
        };
    }

    private static string Words(ServiceRecord record) =>
        Layout.Printable.Of(
            string.Concat(
                SafeWorkReport
                    .LayOut(
                        SampleJobs.Judge(record),
                        ReportTerms.Default,
                        SampleReport.Statement,
                        FontMeasure.Shipped
                    )
                    .Texts()
                    .Select(text => text.Content)
            )
        );

    private static string Printed(string text) => Layout.Printable.Of(text);

    [Fact]
    public void LayOut_RunForLapping_NamesItsMeasuresAndWhoEnteredThem()
    {
        var words = Words(SafeWorkSamples.Read("lap"));

        Assert.Contains(Printed("Runs of the machine during the job"), words, StringComparison.Ordinal);
        Assert.Contains(Printed("started by tech-01; task by tech-01"), words, StringComparison.Ordinal);
        Assert.Contains(Printed("a long-handled brush"), words, StringComparison.Ordinal);
        Assert.Contains(Printed("nobody said to be"), words, StringComparison.Ordinal);
    }

    [Fact]
    public void LayOut_SecondPersonNamed_StandsAtTheStop() =>
        Assert.Contains(Printed("naming tech-04"), Words(Lapped("tech-04")), StringComparison.Ordinal);

    [Fact]
    public void LayOut_SecondPersonThatNobodyIs_IsNotShown() =>
        Assert.Contains(Printed("a second person is said to be"), Words(Lapped()), StringComparison.Ordinal);

    [Fact]
    public void LayOut_NoRunInTheJob_HasNoSuchTable() =>
        Assert.DoesNotContain(
            Printed("Runs of the machine during the job"),
            Words(SafeWorkSamples.Read("height-check")),
            StringComparison.Ordinal
        );
}
