using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Reporting.Tests.Reports;

public class ContradictionsToldTests
{
    private static Finding Open(
        string statement,
        string place = "left (51 mm)",
        FindingReason reason = FindingReason.Conflicting,
        string unit = "U-1"
    ) =>
        new()
        {
            Rule = "r",
            Subject = new Subject.Unit(new(unit)),
            Verdict = Verdict.Unproven,
            Reason = reason,
            Severity = Severity.Hold,
            Effect = Effect.Hold,
            Statement = statement,
            Remedy = new Remedy.ReadAgain(MeasuredQuantity.HeightOfCut, [place], "they contradict"),
        };

    [Fact]
    public void Of_TheSameReadingsAgain_RefersToTheFirst()
    {
        var told = new ContradictionsTold();
        const string First = "Height of cut: readings at left (51 mm) contradict one another: repeat them";

        Assert.Equal((First, false), told.Of(Open(First), "Height on target"));
        Assert.Equal(
            ("Height of cut, side to side: open by the same readings as “Height on target”", true),
            told.Of(
                Open(
                    "Height of cut, side to side: readings at left (51 mm) contradict one another: repeat them"
                ),
                "Height level"
            )
        );
    }

    [Fact]
    public void Of_OneStationByItsDistanceAlone_IsTheSameStation()
    {
        var told = new ContradictionsTold();
        told.Of(Open("a: b", place: "51 mm"), "first");

        Assert.True(told.Of(Open("a: b", place: "left (51 mm)"), "second").IsReference);
    }

    [Fact]
    public void Of_OtherPlacesUnitsOrReasons_IsToldInFull()
    {
        var told = new ContradictionsTold();
        told.Of(Open("a: b"), "first");

        foreach (
            var other in new[]
            {
                Open("a: b", place: "right (459 mm)"),
                Open("a: b", reason: FindingReason.Stale),
                Open("a: b", unit: "U-2"),
            }
        )
        {
            Assert.Equal(("a: b", false), told.Of(other, "second"));
        }
    }
}
