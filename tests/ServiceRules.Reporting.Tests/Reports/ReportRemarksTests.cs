using ServiceRules.Domain.Records;
using ServiceRules.Reporting.Pdf;
using ServiceRules.Reporting.Reports;

namespace ServiceRules.Reporting.Tests.Reports;

/// <summary>The report says no less of a unit than `check` does.</summary>
public class ReportRemarksTests
{
    /// <summary>No rule of a height check judges an attitude that was seen: of a unit that was only read, and of one told in full.</summary>
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void LayOut_ReadAndJudgedByNoRule_IsListed(bool isTurned)
    {
        var record = SampleJobs.Read("height-check-twelve");
        BenchEntry seen = new Reading
        {
            Quantity = MeasuredQuantity.Attitude,
            Observed = new Observation.Seen(Condition.Sound),
        };
        BenchEntry turned = new Adjustment
        {
            Adjuster = AdjusterKind.Shield,
            Side = Side.Both,
            Amount = new AdjustmentAmount.NotStated(),
        };
        var first = record.Units[0];
        var job = SampleJobs.Judge(
            record with
            {
                Units =
                [
                    first with
                    {
                        Entries = isTurned ? [turned, .. first.Entries, seen] : [.. first.Entries, seen],
                    },
                    .. record.Units.Skip(1),
                ],
            }
        );

        Assert.Contains("Read,andjudgedbynorule:bedknifeattitude.", Words(job), StringComparison.Ordinal);
        Assert.DoesNotContain(
            "judgedbynorule",
            Words(SampleJobs.HeightCheckOfTwelve),
            StringComparison.Ordinal
        );
    }

    private static string Words(Application.Assessing.Assessed job) =>
        Layout.Printable.Of(
            string.Concat(
                JobReport
                    .LayOut(job, ReportTerms.Default, SampleReport.Statement, FontMeasure.Shipped)
                    .Texts()
                    .Select(text => text.Content)
            )
        );
}
