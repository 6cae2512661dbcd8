using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation.Checks;

/// <summary>Contradicting readings, in what several places or units tell together.</summary>
public sealed class ContestedElsewhereTests
{
    private static readonly Check Sides = new Check.Spread(MeasuredQuantity.HeightOfCut, SpreadAcross.Sides);

    private static readonly Check Units = new Check.Spread(MeasuredQuantity.HeightOfCut, SpreadAcross.Units);

    private static readonly Check Adjacent = new Check.Spread(
        MeasuredQuantity.HeightOfCut,
        SpreadAcross.AdjacentEnds
    );

    private static readonly Check Parallel = new Check.Parallelism(
        MeasuredQuantity.FrontRoller,
        DatumMethod.MinimumZone
    );

    private static readonly Check Groomer = new Check.Relation(
        MeasuredQuantity.GroomerHeight,
        QuantityRelation.EqualTo,
        MeasuredQuantity.HeightOfCut,
        D("0.10 mm")
    );

    private static Reading Roller(string station, string value) =>
        Measured(MeasuredQuantity.FrontRoller, station, value, "DG-01");

    private static void ToldAsContested(CheckOutcome outcome)
    {
        Assert.Contains(
            outcome.Notices,
            notice => notice.Contains("out whichever of them is believed", StringComparison.Ordinal)
        );
        Assert.StartsWith(
            "out whichever reading is believed",
            Assert.IsType<Remedy.ReadAgain>(outcome.Remedy).Why,
            StringComparison.Ordinal
        );
    }

    // Limit 0.05 mm, right at 4.00 mm; the ends differ by 1.25 times the stations.
    [Theory]
    [InlineData("4.20 mm", "4.26 mm", Verdict.NotMet)]
    [InlineData("3.80 mm", "3.74 mm", Verdict.NotMet)]
    [InlineData("4.02 mm", "4.26 mm", Verdict.Unproven)]
    [InlineData("3.80 mm", "4.26 mm", Verdict.Unproven)]
    public void Evaluate_SideToSide_IsOutOnlyWhereEachChoiceIsOutTheSameWay(
        string first,
        string second,
        Verdict verdict
    )
    {
        var outcome = Judge(Sides, Height("left", first), Height("left", second), Height("right", "4.00 mm"));

        Assert.Equal(verdict, outcome.Verdict);
        if (verdict is Verdict.NotMet)
        {
            ToldAsContested(outcome);
            Assert.Single(outcome.Comparisons);
        }
        else
        {
            Assert.Equal(FindingReason.Conflicting, outcome.Reason);
        }
    }

    // Limit 0.05 mm, right at 0.20 mm. A roller that rises by one reading and falls by the other may be level.
    [Theory]
    [InlineData("0.40 mm", "0.30 mm", Verdict.NotMet)]
    [InlineData("0.40 mm", "0.00 mm", Verdict.Unproven)]
    [InlineData("0.40 mm", "0.20 mm", Verdict.Unproven)]
    public void Evaluate_Parallelism_IsOutOnlyWhereEachChoiceIsOutTheSameWay(
        string first,
        string second,
        Verdict verdict
    )
    {
        var outcome = Judge(
            Parallel,
            Roller("left", first),
            Roller("left", second),
            Roller("right", "0.20 mm")
        );

        Assert.Equal(verdict, outcome.Verdict);
        if (verdict is Verdict.NotMet)
        {
            ToldAsContested(outcome);
        }
    }

    // In the middle 0.10 mm higher or 0.10 mm lower than both sides: out either way, and level if the truth lies between.
    [Fact]
    public void Evaluate_ParallelismOutAtOtherPlacesUnderEachChoice_IsNoBreach() =>
        Assert.Equal(
            Verdict.Unproven,
            Judge(
                Parallel,
                Roller("left", "0.20 mm"),
                Roller("middle", "0.30 mm"),
                Roller("middle", "0.10 mm"),
                Roller("right", "0.21 mm")
            ).Verdict
        );

    // Allowance 0.10 mm either way.
    [Theory]
    [InlineData("4.20 mm", "4.26 mm", Verdict.NotMet)]
    [InlineData("4.00 mm", "4.26 mm", Verdict.Unproven)]
    [InlineData("3.74 mm", "4.26 mm", Verdict.Unproven)]
    public void Evaluate_OneAgainstAnother_IsOutOnlyWhereEachChoiceIsOutTheSameWay(
        string first,
        string second,
        Verdict verdict
    )
    {
        var outcome = Judge(
            Groomer,
            Height("left", "4.00 mm"),
            Height("right", "4.00 mm"),
            Measured(MeasuredQuantity.GroomerHeight, null, first),
            Measured(MeasuredQuantity.GroomerHeight, null, second)
        );

        Assert.Equal(verdict, outcome.Verdict);
        if (verdict is Verdict.NotMet)
        {
            ToldAsContested(outcome);
        }
    }

    // Limit 0.10 mm between middles, and between ends that meet; the other unit stands level at 4.00 mm.
    [Theory]
    [InlineData("4.60 mm", "4.68 mm", Verdict.NotMet)]
    [InlineData("4.00 mm", "4.68 mm", Verdict.Unproven)]
    [InlineData("3.40 mm", "4.68 mm", Verdict.Unproven)]
    public void Evaluate_UnitsOfASet_AreOutOnlyWhereEachChoiceIsOutTheSameWay(
        string first,
        string second,
        Verdict verdict
    )
    {
        UnitWork At(int position, params BenchEntry[] entries) =>
            Unit(entries) with
            {
                Id = new($"U-01-{position}"),
                Position = position,
            };
        var frame = FrameBuilder.Build(
            Record(
                At(1, Height("left", "4.00 mm"), Height("right", "4.00 mm")),
                At(2, Height("left", first), Height("left", second), Height("right", "4.00 mm"))
            ),
            Context,
            Book()
        );

        foreach (var check in new[] { Units, Adjacent })
        {
            var outcome = CheckEvaluation.Evaluate(RuleFor(check), frame, null);

            Assert.Equal(verdict, outcome.Verdict);
            if (verdict is Verdict.NotMet)
            {
                ToldAsContested(outcome);
                Assert.Equal(["U-01-2"], ((Remedy.ReadAgain)outcome.Remedy!).Places.AsEnumerable());
            }
        }
    }

    // The others are 0.60 mm apart whatever is believed of the one that contradicts itself; who moves depends on all three.
    [Fact]
    public void Evaluate_OneUnitOfASetContradictsItself_TellsNoMoveOfTheOthers()
    {
        UnitWork At(int position, params BenchEntry[] entries) =>
            Unit(entries) with
            {
                Id = new($"U-01-{position}"),
                Position = position,
            };
        var frame = FrameBuilder.Build(
            Record(
                At(1, Height("left", "4.20 mm"), Height("left", "4.40 mm"), Height("right", "4.30 mm")),
                At(2, Height("left", "4.00 mm"), Height("right", "4.00 mm")),
                At(3, Height("left", "4.60 mm"), Height("right", "4.60 mm"))
            ),
            Context,
            Book()
        );

        foreach (var check in new[] { Units, Adjacent })
        {
            var outcome = CheckEvaluation.Evaluate(RuleFor(check), frame, null);

            Assert.Equal(Verdict.NotMet, outcome.Verdict);
            var again = Assert.IsType<Remedy.ReadAgain>(outcome.Remedy);
            Assert.Equal(["U-01-1"], again.Places.AsEnumerable());
            Assert.EndsWith("do not tell how far to turn", again.Why, StringComparison.Ordinal);
        }
    }

    // 0.002 in passes on the left, which is out; 0.001 in passes and does not on the right.
    [Fact]
    public void Evaluate_FeelersContradictOneAnotherElsewhere_AreTriedAgainBeforeAnythingIsTurned()
    {
        var outcome = Judge(
            new Check.ProceduralLimit(MeasuredQuantity.Clearance),
            Feeler("left", "0.002 in", true),
            Feeler("left", "0.0025 in", false),
            Feeler("right", "0.001 in", true),
            Feeler("right", "0.001 in", false)
        );

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Equal(
            ["right (459 mm)"],
            Assert.IsType<Remedy.ReadAgain>(outcome.Remedy).Places.AsEnumerable()
        );
    }

    // 0.004 in passed and 0.005 in did not; one step of 0.0005 in later 0.0026 in passes and 0.003 in does not: out either way.
    [Fact]
    public void Evaluate_FeelersAgainstTheStepsBeforeThem_TellNoCountOfSteps()
    {
        var outcome = Judge(
            new Check.LimitOnQuantity(MeasuredQuantity.Clearance, LimitSource.Sheet, CheckedPlaces.Stations),
            Feeler("left", "0.004 in", true),
            Feeler("left", "0.005 in", false),
            Feeler("right", "0.004 in", true),
            Feeler("right", "0.005 in", false),
            Steps(AdjusterKind.Clearance, Side.Both, AdjustDirection.Close, 1),
            Feeler("left", "0.0027 in", true),
            Feeler("left", "0.003 in", false),
            Feeler("right", "0.0027 in", true),
            Feeler("right", "0.003 in", false)
        );

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.IsType<Remedy.ReadAgain>(outcome.Remedy);
    }

    // The worn value is 122 mm.
    [Theory]
    [InlineData("121.00 mm", "121.40 mm", Verdict.NotMet)]
    [InlineData("121.00 mm", "123.00 mm", Verdict.Unproven)]
    public void Evaluate_WornReel_IsWornWhereEachReadingSaysSo(
        string first,
        string second,
        Verdict verdict
    ) =>
        Assert.Equal(
            verdict,
            Judge(
                new Check.LimitOnQuantity(
                    MeasuredQuantity.ReelDiameter,
                    LimitSource.WornBelow,
                    CheckedPlaces.Stations
                ),
                Measured(MeasuredQuantity.ReelDiameter, null, first),
                Measured(MeasuredQuantity.ReelDiameter, null, second)
            ).Verdict
        );
}
