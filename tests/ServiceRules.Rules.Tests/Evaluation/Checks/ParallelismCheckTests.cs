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
}
