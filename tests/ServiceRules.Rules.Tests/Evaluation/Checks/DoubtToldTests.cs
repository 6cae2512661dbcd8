using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation.Checks;

/// <summary>What findings say the doubt comes from, and how they print what is known.</summary>
public sealed class DoubtToldTests
{
    private static readonly Check.LimitOnQuantity OnTarget = new(
        MeasuredQuantity.HeightOfCut,
        LimitSource.SettingOrder,
        CheckedPlaces.StationsAndEnds
    );

    private static readonly Check.LimitOnQuantity Gap = new(
        MeasuredQuantity.Clearance,
        LimitSource.Sheet,
        CheckedPlaces.StationsAndEnds
    );

    // Limits 3.90 and 4.10 mm. The arch of 0.15 mm leaves the ends doubtful by far more than 0.10 mm; the gauge by 0.015 mm.
    [Fact]
    public void Evaluate_BowedReadings_BlameTheShapeAndNotTheGauge()
    {
        var outcome = Judge(
            OnTarget,
            Height("left", "3.95 mm"),
            Height("middle", "4.08 mm"),
            Height("right", "3.95 mm")
        );

        Assert.Equal((Verdict.Unproven, FindingReason.InsideGuard), (outcome.Verdict, outcome.Reason));
        Assert.Contains("do not lie on a straight line", outcome.Statement, StringComparison.Ordinal);
        Assert.DoesNotContain("this gauge", outcome.Statement, StringComparison.Ordinal);
    }

    // Two clearance steps may have moved the height by 0.020 mm: 0.0115 mm of standard uncertainty more, U about 0.027 mm.
    [Fact]
    public void Evaluate_ReadingCarriedThroughSteps_BlamesTheStepsAndNotTheGauge()
    {
        var outcome = Judge(
            OnTarget,
            Height("left", "4.08 mm"),
            Height("right", "4.08 mm"),
            Open(Side.Both, 2)
        );

        Assert.Equal((Verdict.Unproven, FindingReason.InsideGuard), (outcome.Verdict, outcome.Reason));
        Assert.Contains("turned since the reading", outcome.Statement, StringComparison.Ordinal);
        var again = Assert.IsType<Remedy.ReadAgain>(outcome.Remedy);
        Assert.Equal("turned since the reading: the same gauge will do", again.Why);
    }

    [Fact]
    public void Evaluate_GaugeTooCoarseByItself_IsStillBlamed()
    {
        // A tenth of a millimetre shown and no calibration: U about 0.24 mm.
        var coarse = Instruments[0] with
        {
            Id = new("HG-09"),
            Resolution = L("0.1 mm"),
            Calibration = null,
        };
        var record = Record(
            Unit(Height("left", "4.0 mm", "HG-09"), Height("right", "4.0 mm", "HG-09"), Open(Side.Both, 1))
        );
        var outcome = Judge(
            OnTarget,
            FrameBuilder.Build(record with { Instruments = [coarse] }, Context, Book())
        );

        Assert.Equal(FindingReason.GaugeCannotProve, outcome.Reason);
    }

    // Left between 0.0009 and 0.0016 in, right at least 0.0039 in: at the left end no more than 0.00125 in.
    [Fact]
    public void Evaluate_OpenTilt_IsToldFromTheWiderEndAndNoGapBelowNothing()
    {
        var outcome = Judge(
            Gap,
            Feeler("left", "0.004 in", true),
            Feeler("right", "0.001 in", true),
            Feeler("right", "0.0015 in", false)
        );

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Contains(
            outcome.Notices,
            notice => notice.Contains("narrower at the right end", StringComparison.Ordinal)
        );
        Assert.DoesNotContain(outcome.Notices, notice => notice.Contains("than -", StringComparison.Ordinal));
        Assert.DoesNotContain("-0.00", outcome.Statement, StringComparison.Ordinal);
        Assert.All(outcome.Comparisons, compared => Assert.False(compared.KnownLower?.Millimetres < 0));
    }

    // By the line, 51 mm beyond stations 408 mm apart: ends at an eighth of the difference, which falls between two digits.
    [Fact]
    public void Evaluate_IntervalPrinted_HoldsTheIntervalKnown()
    {
        var outcome = Judge(
            Gap,
            Feeler("left", "0.003 in", true),
            Feeler("left", "0.0035 in", false),
            Feeler("right", "0.001 in", true),
            Feeler("right", "0.0015 in", false)
        );

        // Left end: 9/8 of 0.0029 less 1/8 of 0.0016 is 0.0030625 in; 9/8 of 0.0036 less 1/8 of 0.0009 is 0.0039375 in.
        Assert.Contains("between 0.00306 in and 0.00394 in", outcome.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Evaluate_OneOfTwoFeelersRepeated_StaysContradicted()
    {
        var outcome = Judge(
            Gap,
            Feeler("left", "0.0025 in", true),
            Feeler("left", "0.002 in", false),
            Feeler("left", "0.002 in", true),
            Feeler("left", "0.0015 in", false),
            Feeler("left", "0.0015 in", false),
            Feeler("right", "0.001 in", true),
            Feeler("right", "0.0015 in", false)
        );

        Assert.Equal(FindingReason.Conflicting, outcome.Reason);
        Assert.Contains(
            "contradict one another, and nothing was turned between",
            outcome.Statement,
            StringComparison.Ordinal
        );
    }

    // 4.09 against 4.10 mm: the guard to a risk of 2.5 % is 1.96 u, not the U = 2 u that stands beside the value.
    [Fact]
    public void Evaluate_InsideAGuardThatIsNotTheUncertainty_NamesTheGuard()
    {
        var frame = Frame(Height("left", "4.09 mm"), Height("right", "4.09 mm"));

        var outcome = CheckEvaluation.Evaluate(
            RuleFor(OnTarget, new RuleDecision(new DecisionRule.GuardedToRisk(Probability.Of(0.025m)))),
            frame,
            frame.Units[0]
        );

        Assert.Equal(FindingReason.InsideGuard, outcome.Reason);
        Assert.Contains("by the rule's guard of 0.013 mm", outcome.Statement, StringComparison.Ordinal);
    }

    // 51 mm beyond stations 408 mm apart: the left end is further out than the left station, and nobody was there.
    [Fact]
    public void Evaluate_StationAndEndOut_LeadsWithTheStationRead()
    {
        var outcome = Judge(OnTarget, Height("left", "4.40 mm"), Height("right", "4.00 mm"));

        Assert.StartsWith(
            "Height of cut: left (51 mm) 4.400 mm",
            outcome.Statement,
            StringComparison.Ordinal
        );
        Assert.Contains("also out: left end", outcome.Statement, StringComparison.Ordinal);
    }

    /// <summary>
    /// Limit 0.05 mm. 0.000, 0.030 and 0.030 mm: the line through them runs from 0.00125 to 0.03875 mm and misses them by far
    /// more than the thousandth that the gauge shows. By the gauge alone the range of 0.03875 mm would be in.
    /// </summary>
    [Fact]
    public void Evaluate_UnevenRoller_BlamesTheShapeAndNotTheGauge()
    {
        Reading Roller(string station, string value) =>
            Measured(MeasuredQuantity.FrontRoller, station, value, "DG-01");

        var outcome = Judge(
            new Check.Parallelism(MeasuredQuantity.FrontRoller, DatumMethod.MinimumZone),
            Roller("left", "0.000 mm"),
            Roller("middle", "0.030 mm"),
            Roller("right", "0.030 mm")
        );

        Assert.Equal((Verdict.Unproven, FindingReason.InsideGuard), (outcome.Verdict, outcome.Reason));
        Assert.Contains("do not lie on a straight line", outcome.Statement, StringComparison.Ordinal);
        Assert.DoesNotContain("this gauge", outcome.Statement, StringComparison.Ordinal);
    }

    // Allowance 0.03 mm, 0.01 mm apart: U of the difference is 0.012 mm, with two clearance steps since the height 0.026 mm.
    [Fact]
    public void Evaluate_OneAgainstAnotherThatWasCarried_BlamesTheStepsAndNotTheGauge()
    {
        var outcome = Judge(
            new Check.Relation(
                MeasuredQuantity.GroomerHeight,
                QuantityRelation.EqualTo,
                MeasuredQuantity.HeightOfCut,
                D("0.03 mm")
            ),
            Height("left", "4.00 mm"),
            Height("right", "4.00 mm"),
            Open(Side.Both, 2),
            Measured(MeasuredQuantity.GroomerHeight, "left", "4.01 mm"),
            Measured(MeasuredQuantity.GroomerHeight, "right", "4.01 mm")
        );

        Assert.Equal(Verdict.Unproven, outcome.Verdict);
        Assert.Contains("turned since the reading", outcome.Statement, StringComparison.Ordinal);
        Assert.EndsWith(
            "the same gauge will do",
            Assert.IsType<Remedy.ReadAgain>(outcome.Remedy).Why,
            StringComparison.Ordinal
        );
    }

    // Two units of a machine, the second bowed: across units it is the bow that leaves doubt.
    [Fact]
    public void Evaluate_BowedUnitOfASet_BlamesTheShapeAndNotTheGauge()
    {
        var frame = FrameBuilder.Build(
            Record(
                Unit(Height("left", "4.00 mm"), Height("right", "4.00 mm")),
                Unit(Height("left", "4.00 mm"), Height("middle", "4.06 mm"), Height("right", "4.00 mm")) with
                {
                    Id = new("U-01-2"),
                    Position = 2,
                }
            ),
            Context,
            Book()
        );

        var outcome = CheckEvaluation.Evaluate(
            RuleFor(new Check.Spread(MeasuredQuantity.HeightOfCut, SpreadAcross.AdjacentEnds)),
            frame,
            null
        );

        Assert.Equal(Verdict.Unproven, outcome.Verdict);
        Assert.Contains("do not lie on a straight line", outcome.Statement, StringComparison.Ordinal);
        Assert.DoesNotContain(
            "finer gauge",
            outcome.Remedy is Remedy.ReadAgain again ? again.Why : "",
            StringComparison.Ordinal
        );
    }

    // Upper limit 0.0025 in, lower 0.0005 in, tolerance 0.0001 in. Every feeler passes, or none does: no finer gauge, but the next
    // feeler, and which one settles it.
    [Theory]
    [InlineData("0.004 in", true, Verdict.NotMet, "thicker feelers until one does not pass")]
    [InlineData(
        "0.0015 in",
        true,
        Verdict.Unproven,
        "thicker feelers until one does not pass: 0.002 in or less not passing, or 0.003 in or more passing settles the upper limit, at the end as well"
    )]
    [InlineData(
        "0.001 in",
        false,
        Verdict.Unproven,
        "thinner feelers until one passes: 0.00067 in or more passing, which no usual set holds below what did not pass, settles the lower limit, at the end as well"
    )]
    public void Evaluate_FeelersOnOneSideAlone_AsksForTheFeelerThatIsMissing(
        string feeler,
        bool passes,
        Verdict verdict,
        string asked
    )
    {
        var outcome = Judge(Gap, Feeler("left", feeler, passes), Feeler("right", feeler, passes));

        Assert.Equal(verdict, outcome.Verdict);
        Assert.EndsWith(asked, Assert.IsType<Remedy.ReadAgain>(outcome.Remedy).Why, StringComparison.Ordinal);
    }

    [Fact]
    public void Evaluate_FeelersThatLackDifferentThingsAtEachSide_AreAskedForWhereTheyAre()
    {
        var outcome = Judge(Gap, Feeler("left", "0.001 in", false), Feeler("right", "0.0015 in", true));

        Assert.Equal(Verdict.Unproven, outcome.Verdict);
        var why = Assert.IsType<Remedy.ReadAgain>(outcome.Remedy).Why;
        Assert.StartsWith("at 51 mm what was tried does not pass", why, StringComparison.Ordinal);
        Assert.Contains("; at 459 mm what was tried passes", why, StringComparison.Ordinal);
    }

    [Fact]
    public void Evaluate_FeelersToEitherSideOfALimit_NameTheFeelersThatSettleIt()
    {
        // 0.0019 to 0.0031 in, upper limit 0.0025 in: 0.0024 in that stops proves less than 0.0025 in at the station; at the end,
        // 1.125 of it less 0.125 of 0.0019 in at the least, only where it is less than 0.002433 in.
        var outcome = Judge(
            Gap,
            Feeler("left", "0.002 in", true),
            Feeler("left", "0.003 in", false),
            Feeler("right", "0.002 in", true),
            Feeler("right", "0.003 in", false)
        );

        Assert.Equal(
            "try the feelers on both sides of the limit, or a finer gauge: 0.00233 in or less not passing, which no usual set holds above what passed, settles the upper limit, at the end as well",
            Assert.IsType<Remedy.ReadAgain>(outcome.Remedy).Why
        );
    }

    /// <summary>
    /// Lower limit 0.0005 in, tolerance 0.0001 in. The left end is 1.125 of the left less 0.125 of the right, which may be as wide
    /// as 0.0021 in: it keeps the limit from 0.000678 in at the left on, which 0.00078 in that passes shows and 0.0006 in does not.
    /// </summary>
    [Theory]
    [InlineData("0.0006 in", Verdict.Unproven)]
    [InlineData("0.00077 in", Verdict.Unproven)]
    [InlineData("0.00078 in", Verdict.Met)]
    public void Evaluate_FeelerThatSettlesTheStation_IsNamedWhereItSettlesTheEndToo(
        string passing,
        Verdict then
    )
    {
        Reading[] tried =
        [
            Feeler("left", "0.001 in", false),
            Feeler("right", "0.0015 in", true),
            Feeler("right", "0.002 in", false),
        ];

        var before = Judge(Gap, tried);
        var after = Judge(Gap, [Feeler("left", passing, true), .. tried]);

        Assert.Contains(
            "0.00078 in or more passing, which no usual set holds below what did not pass, settles the lower limit, at the end as well",
            Assert.IsType<Remedy.ReadAgain>(before.Remedy).Why,
            StringComparison.Ordinal
        );
        Assert.Equal(then, after.Verdict);
        Assert.True(
            then is Verdict.Met
                || Assert
                    .IsType<Remedy.ReadAgain>(after.Remedy)
                    .Why.Contains("0.00078 in or more passing", StringComparison.Ordinal)
        );
    }

    // 0.0005 to 0.0025 in at the right and 0.0005 to 0.0026 in at the left: only the left is open, and both ends are.
    [Fact]
    public void Evaluate_OtherEndOpenBesideAStationThatIsIn_IsAskedForToo()
    {
        var outcome = Judge(
            Gap,
            Feeler("left", "0.0006 in", true),
            Feeler("left", "0.0025 in", false),
            Feeler("right", "0.0006 in", true),
            Feeler("right", "0.0024 in", false)
        );

        Assert.Equal(Verdict.Unproven, outcome.Verdict);
        Assert.Equal(
            ["51 mm", "459 mm"],
            Assert.IsType<Remedy.ReadAgain>(outcome.Remedy).Places.AsEnumerable()
        );
    }

    // 0.0007 in that does not pass leaves no feeler that could show 0.000678 in: the end is read nearer to it, or not at all.
    [Fact]
    public void Evaluate_EndThatNoFeelerAtTheStationSettles_IsSaidToBe()
    {
        var outcome = Judge(
            Gap,
            Feeler("left", "0.0006 in", true),
            Feeler("left", "0.0007 in", false),
            Feeler("right", "0.0015 in", true),
            Feeler("right", "0.002 in", false)
        );

        Assert.Equal(Verdict.Unproven, outcome.Verdict);
        Assert.Contains(
            "no feeler tried here settles the end: read within 5 mm of it",
            Assert.IsType<Remedy.ReadAgain>(outcome.Remedy).Why,
            StringComparison.Ordinal
        );
    }

    // 51 and 459 of 510 mm: by the line the right end is 0.0300 - 0.125 * 4.97 mm, which is no gap.
    [Fact]
    public void Evaluate_LineThatRunsBelowNothing_TellsContactOrNoLine()
    {
        var outcome = Judge(
            Gap,
            Measured(MeasuredQuantity.Clearance, "left", "5.000 mm", "DG-01"),
            Measured(MeasuredQuantity.Clearance, "right", "0.030 mm", "DG-01")
        );

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Contains(
            "right end, where by the line the blades would touch, or the line does not hold",
            outcome.Statement,
            StringComparison.Ordinal
        );
        Assert.DoesNotContain("-0.", outcome.Statement, StringComparison.Ordinal);
    }

    // A limit on one side has no middle to go to, nor has a difference held to its limit either way.
    [Fact]
    public void Evaluate_TooCloseToTheOnlyLimit_NamesNoMiddle()
    {
        var atLeast = Sheet with
        {
            Quantities =
            [
                new()
                {
                    Quantity = MeasuredQuantity.ShieldGap,
                    Lower = D("1.0 mm"),
                    Basis = Sheet.Basis,
                },
            ],
        };
        var frame = FrameBuilder.Build(
            Record(Unit(Measured(MeasuredQuantity.ShieldGap, null, "1.005 mm"))),
            Context,
            Book(atLeast)
        );

        Assert.Equal(
            "too close to the limit for this gauge: bring it further inside the limit, or use a finer gauge",
            Assert
                .IsType<Remedy.ReadAgain>(
                    Judge(
                        new Check.LimitOnQuantity(
                            MeasuredQuantity.ShieldGap,
                            LimitSource.Sheet,
                            CheckedPlaces.Stations
                        ),
                        frame
                    ).Remedy
                )
                .Why
        );
    }

    [Fact]
    public void Evaluate_GaugeTooCoarse_AsksForAFinerOneAndMovesNothing()
    {
        // Half a millimetre shown and no calibration, far off the target: U about 1.2 mm.
        var rule = Instruments[0] with
        {
            Id = new("HG-09"),
            Resolution = L("0.5 mm"),
            Calibration = null,
        };
        var record = Record(Unit(Height("left", "4.5 mm", "HG-09"), Height("right", "4.5 mm", "HG-09")));

        var outcome = Judge(
            OnTarget,
            FrameBuilder.Build(record with { Instruments = [rule] }, Context, Book())
        );

        Assert.Contains("4.5 mm ± 1.2 mm", outcome.Statement, StringComparison.Ordinal);
        Assert.StartsWith(
            "use a finer gauge",
            Assert.IsType<Remedy.ReadAgain>(outcome.Remedy).Why,
            StringComparison.Ordinal
        );
    }
}
