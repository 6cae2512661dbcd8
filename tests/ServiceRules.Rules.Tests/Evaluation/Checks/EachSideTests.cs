using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation.Checks;

/// <summary>
/// What is held against something else is moved side by side. Width 510 mm, stations 51 and 459 mm, adjusters at the ends: a move of one
/// end by m moves its own station by 0.9 m and the other by 0.1 m.
/// </summary>
public class EachSideTests
{
    private static readonly Check Equal = new Check.Relation(
        MeasuredQuantity.GroomerHeight,
        QuantityRelation.EqualTo,
        MeasuredQuantity.HeightOfCut,
        D("0.10 mm")
    );

    private static CheckOutcome Groomer(string left, string right) =>
        Judge(
            Equal,
            Height("left", "4.00 mm"),
            Height("right", "4.00 mm"),
            Measured(MeasuredQuantity.GroomerHeight, "51 mm", left),
            Measured(MeasuredQuantity.GroomerHeight, "459 mm", right)
        );

    /// <summary>0.27 mm too high at one station: 0.27 / 0.9 = 0.30 mm at its end; the good one then stands 0.03 mm low.</summary>
    [Theory]
    [InlineData("4.27 mm", "4.00 mm", -0.30, 0)]
    [InlineData("4.00 mm", "4.27 mm", 0, -0.30)]
    [InlineData("3.73 mm", "4.00 mm", 0.30, 0)]
    public void Evaluate_OneEndOut_MovesThatEndAlone(
        string left,
        string right,
        double moveLeft,
        double moveRight
    )
    {
        var move = Assert.IsType<Remedy.Move>(Groomer(left, right).Remedy);

        Assert.Equal(
            (AdjusterKind.Groomer, Mm((decimal)moveLeft), Mm((decimal)moveRight)),
            (move.Adjuster, move.Left, move.Right)
        );
    }

    /// <summary>The line through +0.20 and -0.20 mm, 408 mm apart, stands 0.25 mm off at the ends.</summary>
    [Fact]
    public void Evaluate_BothEndsOutOppositeWays_MovesEachItsWay()
    {
        var move = Assert.IsType<Remedy.Move>(Groomer("4.20 mm", "3.80 mm").Remedy);

        Assert.Equal((Mm(-0.25m), Mm(0.25m)), (move.Left, move.Right));
    }

    /// <summary>
    /// The good end at -0.09 mm: the left alone would take it out, so that both are moved. What was off by 0.20 and -0.09 is off by
    /// 0.20 + 0.29/8 = 0.23625 and -0.09 - 0.29/8 = -0.12625 mm at the ends.
    /// </summary>
    [Fact]
    public void Evaluate_TheGoodEndHasNoRoom_MovesBoth()
    {
        var move = Assert.IsType<Remedy.Move>(Groomer("4.20 mm", "3.91 mm").Remedy);

        Assert.Equal((Mm(-0.23625m), Mm(0.12625m)), (move.Left, move.Right));
    }

    [Theory]
    [InlineData("4.27 mm", "4.00 mm")]
    [InlineData("4.20 mm", "3.80 mm")]
    [InlineData("4.20 mm", "3.91 mm")]
    [InlineData("4.10 mm", "4.25 mm")]
    public void Evaluate_DoneAsTold_IsInAtBothEnds(string left, string right)
    {
        var move = Assert.IsType<Remedy.Move>(Groomer(left, right).Remedy);
        string After(string read, decimal own, decimal other) =>
            Length
                .FromMillimetres(decimal.Round(L(read).Value.Millimetres + (0.9m * own) + (0.1m * other), 2))
                .ToString();

        var (byLeft, byRight) = (move.Left.Millimetres, move.Right.Millimetres);
        Assert.Equal(
            Verdict.Met,
            Groomer(After(left, byLeft, byRight), After(right, byRight, byLeft)).Verdict
        );
    }

    /// <summary>Bowed beyond the allowance: no setting of two ends takes the middle in, and none is told.</summary>
    [Fact]
    public void Evaluate_Bowed_TellsNoMove()
    {
        var outcome = Judge(
            Equal,
            Height("left", "4.00 mm"),
            Height("right", "4.00 mm"),
            Measured(MeasuredQuantity.GroomerHeight, "51 mm", "4.00 mm"),
            Measured(MeasuredQuantity.GroomerHeight, "middle", "4.50 mm"),
            Measured(MeasuredQuantity.GroomerHeight, "459 mm", "4.00 mm")
        );

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.IsType<Remedy.Act>(outcome.Remedy);
    }

    /// <summary>Likely out and not proven: told the move, as of a height; likely in: read again.</summary>
    [Theory]
    [InlineData("4.108 mm", true)]
    [InlineData("4.095 mm", false)]
    public void Evaluate_NotProven_IsMovedWhereLikelyOut(string left, bool moved)
    {
        var outcome = Groomer(left, "4.00 mm");

        Assert.Equal((Verdict.Unproven, FindingReason.InsideGuard), (outcome.Verdict, outcome.Reason));
        Assert.Equal(moved ? typeof(Remedy.Move) : typeof(Remedy.ReadAgain), outcome.Remedy?.GetType());
    }

    [Fact]
    public void Evaluate_InAtBothEnds_NamesThePlacesAndNoHalfSentence() =>
        Assert.StartsWith(
            "Groomer height against height of cut: in at 51 mm and 459 mm; tightest at 51 mm groomer height above height of cut by ",
            Groomer("4.03 mm", "4.00 mm").Statement,
            StringComparison.Ordinal
        );
}
