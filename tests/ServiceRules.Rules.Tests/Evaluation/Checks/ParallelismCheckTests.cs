using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation.Checks;

public class ParallelismCheckTests
{
    private static readonly Check Parallel = new Check.Parallelism(
        MeasuredQuantity.FrontRoller,
        DatumMethod.MinimumZone
    );

    private static Reading Roller(string station, string value) =>
        Measured(MeasuredQuantity.FrontRoller, station, value);

    // Limit 0.05 mm as printed in millimetres. A tilt counts in full and grows to the ends by 1.25; U = 0.0147 mm.
    [Theory]
    [InlineData("10.00 mm", "10.02 mm", Verdict.Met)]
    [InlineData("10.00 mm", "10.04 mm", Verdict.Unproven)]
    [InlineData("10.08 mm", "10.00 mm", Verdict.NotMet)]
    public void Evaluate_TiltOverTheWidth_CountsInFull(string left, string right, Verdict verdict)
    {
        Assert.Equal(verdict, Judge(Parallel, Roller("left", left), Roller("right", right)).Verdict);
    }

    [Fact]
    public void Evaluate_OutOfParallel_SquaresTheRightSide()
    {
        var outcome = Judge(Parallel, Roller("left", "10.08 mm"), Roller("right", "10.00 mm"));

        var move = Assert.IsType<Remedy.Move>(outcome.Remedy);
        Assert.Equal((Mm(0m), Mm(0.10m)), (move.Left, move.Right));
    }

    [Fact]
    public void Evaluate_OneStation_DrawsNoLine()
    {
        var outcome = Judge(Parallel, Roller("left", "10.00 mm"));

        Assert.Equal((Verdict.Unproven, FindingReason.TooFewStations), (outcome.Verdict, outcome.Reason));
    }

    /// <summary>
    /// A high middle: (0, 0.08, 0.02) less the line from 0 to 0.02 leaves (0, 0.07, 0). Of three readings at even
    /// distances both lines have that slope, and so the same width.
    /// </summary>
    [Theory]
    [InlineData(DatumMethod.MinimumZone, "the minimum zone")]
    [InlineData(DatumMethod.LeastSquares, "the least-squares line")]
    public void Evaluate_RollerBowedBeyondTheLimit_SquaringCannotHelp(DatumMethod datum, string laid)
    {
        var outcome = Judge(
            new Check.Parallelism(MeasuredQuantity.FrontRoller, datum),
            Roller("left", "10.00 mm"),
            Roller("middle", "10.08 mm"),
            Roller("right", "10.02 mm")
        );

        var act = Assert.IsType<Remedy.Act>(outcome.Remedy);
        Assert.Contains($"out of straight by 0.07 mm ({laid})", act.What, StringComparison.Ordinal);
        Assert.Contains(
            "squaring does not take a bow out",
            Assert.Single(outcome.Notices),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Evaluate_TiltedWithALittleBow_IsSquaredAndToldOfBoth()
    {
        var outcome = Judge(
            Parallel,
            Roller("left", "10.00 mm"),
            Roller("middle", "10.13 mm"),
            Roller("right", "10.20 mm")
        );

        Assert.IsType<Remedy.Move>(outcome.Remedy);
        var told = Assert.Single(outcome.Notices);
        Assert.Contains(
            "0.250 mm ± 0.015 mm larger at the right end than at the left",
            told,
            StringComparison.Ordinal
        );
        Assert.Contains("larger in the middle than at the ends", told, StringComparison.Ordinal);
    }
}
