using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Reporting.Tests.Reports.Words;

public class ReadingUnitsTests
{
    private static Reading Gap(string print) =>
        new()
        {
            Quantity = MeasuredQuantity.Clearance,
            Observed = new Observation.Measured(
                PrintedLength.Parse(print).TryGet(out var value, out _)
                    ? value
                    : throw new FormatException(print)
            ),
        };

    /// <summary>Read thrice in millimetres, then turned and read in inches: the statement speaks of that, and so do its lines.</summary>
    [Theory]
    [InlineData("/units/0/entries/3", UnitSystem.Inch)]
    [InlineData("/units/0/entries/0", UnitSystem.Metric)]
    [InlineData("/units/0/entries/9", UnitSystem.Metric)]
    [InlineData("/timeline/0", UnitSystem.Metric)]
    public void Of_AFinding_SpeaksInTheUnitsOfWhatItRestsOn(string evidence, UnitSystem expected)
    {
        var record = SampleJobs.FullService.Record with
        {
            Units =
            [
                new()
                {
                    Id = new("U-1"),
                    Sheet = "reel-125-9-510",
                    Entries = [Gap("0.150 mm"), Gap("0.140 mm"), Gap("0.130 mm"), Gap("0.0015 in")],
                },
            ],
        };
        var finding = new Finding
        {
            Rule = "clearance-within-limits",
            Subject = new Subject.Unit(new("U-1")),
            Verdict = Verdict.Met,
            Severity = Severity.Hold,
            Effect = Effect.None,
            Reason = FindingReason.None,
            Statement = "Clearance: in",
            Evidence = [evidence],
        };

        Assert.Equal(expected, ReadingUnits.Of(record, finding));
    }
}
