using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation;

/// <summary>What the gauge, its zero and the workshop do to what is known, and what a finding says of them.</summary>
public sealed class GaugeTests
{
    internal static readonly Check OnTarget = new Check.LimitOnQuantity(
        MeasuredQuantity.HeightOfCut,
        LimitSource.SettingOrder,
        CheckedPlaces.StationsAndEnds
    );

    internal static readonly Instrument First = Instruments[0];

    internal static readonly Instrument Second = First with { Id = new("HG-02") };

    /// <summary>A zero may be off by 0.0005 in, by whatever step the gauge shows it: a coarser one is not let off more.</summary>
    [Theory]
    [InlineData("0.0127 mm", null, FindingReason.None)]
    [InlineData("0.0128 mm", null, FindingReason.GaugeUnfit)]
    [InlineData("-0.03 mm", null, FindingReason.GaugeUnfit)]
    [InlineData("0.000 mm", "0.0128 mm", FindingReason.GaugeUnfit)]
    [InlineData("-0.008 mm", "0.008 mm", FindingReason.GaugeUnfit)]
    public void Build_AZeroError_CountsAlikeForEveryResolution(
        string zero,
        string? after,
        FindingReason expected
    ) =>
        Assert.All(
            new string?[] { "0.001 mm", "0.01 mm", "0.05 mm", "0.1 mm", null },
            resolution =>
            {
                var frame = FrameBuilder.Build(
                    Record(Unit(Height("left", "4.00 mm"))) with
                    {
                        Instruments =
                        [
                            First with
                            {
                                Resolution = resolution is null ? null : L(resolution),
                                ZeroCheck = new(L(zero), null),
                                ZeroCheckAfter = after is null ? null : new(L(after), null),
                            },
                        ],
                    },
                    Context,
                    Book()
                );

                Assert.Equal(expected, Left(frame, MeasuredQuantity.HeightOfCut, 51).Doubt);
            }
        );

    [Fact]
    public void Evaluate_TwoGaugesDisagree_SaysThatItIsAGaugeAndWhichZeroToCheck()
    {
        var checkedOnce = Second with { ZeroCheck = new(L("0.00 mm"), null) };

        var outcome = Judged(
            [First with { ZeroCheck = null }, checkedOnce],
            Height("left", "4.02 mm"),
            Height("left", "4.12 mm", "HG-02")
        );

        Assert.Equal((Verdict.Unproven, FindingReason.Conflicting), (outcome.Verdict, outcome.Reason));
        // U is 0.013013 mm with the zero checked, 0.019606 mm without; together 0.023532.
        var told = Assert.Single(outcome.Notices);
        Assert.Contains(
            "HG-01 and HG-02 read 0.100 mm apart with nothing turned between",
            told,
            StringComparison.Ordinal
        );
        Assert.Contains("that points to a gauge or its zero", told, StringComparison.Ordinal);
        Assert.Contains(
            "HG-02 has a zero check and the other none, so check the zero of HG-01 first",
            told,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Evaluate_TwoGaugesDisagreeOneCheckedAgain_TellsThatItsCheckIsLater()
    {
        var once = First with { ZeroCheck = new(L("0.00 mm"), null) };
        var again = Second with
        {
            ZeroCheck = new(L("0.00 mm"), null),
            ZeroCheckAfter = new(L("0.00 mm"), null),
        };

        var outcome = Judged([once, again], Height("left", "4.02 mm"), Height("left", "4.12 mm", "HG-02"));

        Assert.Contains(
            "HG-02 has the later zero check, so check the zero of HG-01 first",
            Assert.Single(outcome.Notices),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Evaluate_TwoGaugesDisagreeWithoutAnyZeroCheck_SendsToTheSettingPieceWithBoth()
    {
        var outcome = Judged([First, Second], Height("left", "4.02 mm"), Height("left", "4.12 mm", "HG-02"));

        Assert.Contains(
            "check the zero of both on a setting piece",
            Assert.Single(outcome.Notices),
            StringComparison.Ordinal
        );
    }

    [Theory]
    // √(0.013013² + 0.013013²) = 0.018403: 0.018 is explained, 0.019 is not.
    [InlineData("4.218 mm", "agree (0.018 mm apart")]
    [InlineData("4.219 mm", "read 0.019 mm apart")]
    public void Evaluate_OutWithTwoGauges_SaysWhetherItIsTheUnit(string second, string expected)
    {
        var outcome = Judged(
            [First, Second],
            Height("left", "4.200 mm"),
            Height("left", second, "HG-02"),
            Height("right", "4.20 mm")
        );

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Contains(expected, outcome.Notices[^1], StringComparison.Ordinal);
        // A test at about 95 % is no certainty.
        Assert.Contains(
            expected.StartsWith("agree", StringComparison.Ordinal)
                ? "that points to the unit"
                : "that points to a gauge",
            outcome.Notices[^1],
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Evaluate_InWithTwoGaugesThatAgree_SaysNothing() =>
        Assert.Empty(
            Judged(
                [First, Second],
                Height("left", "4.00 mm"),
                Height("left", "4.01 mm", "HG-02"),
                Height("right", "4.00 mm")
            ).Notices
        );

    /// <summary>
    /// Scale within two steps of 0.01 mm: (0.02²)/3 + 0.01²/12 + 0.003² = 1.506667e-4; root 0.01227464. Shared: 0.02/√3. With the
    /// calibration it is 0.0065065 mm: a certificate is never to a gauge's loss. Where nobody checked the zero, 0.0127²/3 besides, shared.
    /// </summary>
    [Theory]
    [InlineData(null, 0.0142980, 0.0136784)]
    [InlineData("0.00 mm", 0.0122747, 0.0115471)]
    public void Build_AGaugeWithoutACalibration_IsKnownNoBetterThanTwoOfItsSteps(
        string? zero,
        double all,
        double shared
    )
    {
        var bare = First with { Calibration = null, ZeroCheck = zero is null ? null : new(L(zero), null) };

        var place = Left(Frame([bare], null, Height("left", "4.02 mm")), MeasuredQuantity.HeightOfCut, 51);

        Assert.Equal(FindingReason.None, place.Doubt);
        Assert.Equal(Mm((decimal)all), ((MeasuredValue)place.Knowledge!).Uncertainty.Value);
        Assert.Equal(Mm((decimal)shared), place.Shared!.Value.Uncertainty.Value);
    }

    [Fact]
    public void Build_ASecondZeroCheck_CorrectsByTheMeanAndWidensByWhatIsLeftAndTheDrift()
    {
        // 0.005² + 0.01²/12 + 0.003² + 0.005²/3 + 0.01²/12 (zero) + 0.01²/3 (drift) = 9.23333e-5; root 0.00960902.
        var drifted = First with
        {
            ZeroCheck = new(L("0.00 mm"), null),
            ZeroCheckAfter = new(L("0.01 mm"), null),
        };

        var place = Left(Frame([drifted], null, Height("left", "4.02 mm")), MeasuredQuantity.HeightOfCut, 51);

        Assert.Equal(FindingReason.None, place.Doubt);
        Assert.Equal(Mm(0.0096091m), ((MeasuredValue)place.Knowledge!).Uncertainty.Value);
        Assert.Equal(Mm(4.015m), ((MeasuredValue)place.Knowledge!).Value);
    }

    [Theory]
    [InlineData("-0.0127 mm", "3.9217")]
    [InlineData("-0.0005 in", "3.9217")]
    [InlineData("0.0127 mm", "3.8963")]
    [InlineData("0.02 mm", "3.889")]
    public void Build_AZeroThatReadsOff_IsJudgedLessItsErrorAndTellsBoth(string error, string judged)
    {
        var off = First with { ZeroCheck = new(L(error), null) };
        var frame = Frame([off], null, Height("left", "3.909 mm"));
        var place = Left(frame, MeasuredQuantity.HeightOfCut, 51);

        var value = Mm(decimal.Parse(judged, System.Globalization.CultureInfo.InvariantCulture));
        Assert.Equal(value, ((MeasuredValue)place.Knowledge!).Value);
        var told = Assert.Single(place.Corrected);
        Assert.Equal((Mm(3.909m), value), (told.AsRead, told.Value));
        Assert.Contains(
            CheckEvaluation.Evaluate(RuleFor(OnTarget), frame, frame.Units[0]).Notices,
            notice => notice.Contains("reads 3.909 mm, corrected by", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Build_AZeroThatWasSet_CorrectsNothingAndTellsNothing() =>
        Assert.Empty(
            Left(
                Frame([First with { ZeroCheck = new(L("0.00 mm"), null) }], null, Height("left", "3.909 mm")),
                MeasuredQuantity.HeightOfCut,
                51
            ).Corrected
        );

    [Fact]
    public void Build_ADriftOfTheZero_IsNotSharedByTheReadings()
    {
        // Shared: 0.005² (calibration) + 0.005²/3 + 0.01²/12 (zero); root 0.00645497. The drift stays with each reading.
        var drifted = First with
        {
            ZeroCheck = new(L("0.00 mm"), null),
            ZeroCheckAfter = new(L("0.01 mm"), null),
        };

        var place = Left(Frame([drifted], null, Height("left", "4.02 mm")), MeasuredQuantity.HeightOfCut, 51);

        Assert.Equal(Mm(0.0064550m), place.Shared!.Value.Uncertainty.Value);
    }

    [Theory]
    [InlineData("0.00 mm", "0.02 mm", "At the end of the job the zero of gauge HG-01 was 0.02 mm off")]
    [InlineData("-0.01 mm", "0.01 mm", "The zero of gauge HG-01 moved by 0.02 mm during the job")]
    [InlineData("0.02 mm", "0.00 mm", "The zero check of gauge HG-01 came out 0.02 mm off")]
    public void Evaluate_AZeroThatMovedByMoreThanTheGaugeShows_ProvesNothing(
        string before,
        string after,
        string expected
    )
    {
        var drifted = First with { ZeroCheck = new(L(before), null), ZeroCheckAfter = new(L(after), null) };
        var frame = Frame([drifted], null, Height("left", "4.00 mm"), Height("right", "4.00 mm"));

        var outcome = CheckEvaluation.Evaluate(RuleFor(OnTarget), frame, frame.Units[0]);
        Assert.Equal((Verdict.Unproven, FindingReason.GaugeUnfit), (outcome.Verdict, outcome.Reason));
        var recency = new Check.Recency(RecencyOf.Instruments);
        Assert.Contains(
            expected,
            CheckEvaluation.Evaluate(RuleFor(recency), frame, null).Statement,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Build_RepeatabilityFromFewReadings_CoversWithStudentsFactor()
    {
        // u² = 4.23333e-5. All of it has ν = u⁴/(0.003⁴/1) = 22.1 and k = 2.12: 0.0138. The scatter by itself, on one degree of
        // freedom, has k = 13.967730199245 (JCGM 100, Table G.2): 0.041903190597735, which is more and counts.
        var studied = First with
        {
            Repeatability = null,
            RepeatabilityStudies = [new(L("0.003 mm"), 1)],
        };

        var place = Left(Frame([studied], null, Height("left", "4.02 mm")), MeasuredQuantity.HeightOfCut, 51);

        Assert.Equal(Mm(0.0419032m), ((MeasuredValue)place.Knowledge!).Expanded.Value);
        Assert.Equal(Mm(0.0065065m), ((MeasuredValue)place.Knowledge).Uncertainty.Value);
    }

    [Fact]
    public void Build_RepeatabilityStudies_ArePooledByTheirDegreesOfFreedom()
    {
        // √((1·0.006² + 3·0.002²)/4) = √12e-6 = 0.00346410; u² = 25e-6 + 8.3333e-6 + 12e-6 = 4.53333e-5.
        var studied = First with
        {
            Repeatability = null,
            RepeatabilityStudies = [new(L("0.006 mm"), 1), new(L("0.002 mm"), 3)],
        };

        var place = Left(Frame([studied], null, Height("left", "4.02 mm")), MeasuredQuantity.HeightOfCut, 51);

        Assert.Equal(Mm(0.0067331m), ((MeasuredValue)place.Knowledge!).Uncertainty.Value);
    }

    [Fact]
    public void Build_ACertificateThatStatesItsLevel_CountsWithTheFactorOfThatLevel()
    {
        // U = 0.010 at 95 % on 5 degrees of freedom: k = 2.570581835636, u = 0.00389017…; with 0.01²/12 and 0.003²:
        // 1.513343e-5 + 8.33333e-6 + 9e-6 = 3.246676e-5; root 0.00569796.
        var certified = First with
        {
            Calibration = Calibration.AtLevel(
                new(2026, 1, 10),
                new(2027, 1, 10),
                L("0.010 mm"),
                CoverageLevel.NinetyFive,
                5
            ),
        };

        var place = Left(
            Frame([certified], null, Height("left", "4.02 mm")),
            MeasuredQuantity.HeightOfCut,
            51
        );

        Assert.Equal(Mm(0.0056980m), ((MeasuredValue)place.Knowledge!).Uncertainty.Value);
        Assert.False(((MeasuredValue)place.Knowledge).DegreesOfFreedom.IsInfinite);
    }

    [Fact]
    public void Build_ANotedTemperature_AddsWhatDifferentExpansionMayDo()
    {
        // 123 mm at 30 degC: 0.0081666² + 0.0007101² + 0.000041² + 0.00082² = 6.78716e-5; with the gauge's 4.23333e-5 the
        // root is 0.0104979. Not noted, nothing is claimed: 0.0065065.
        var calliper = First with
        {
            Kind = InstrumentKind.Calliper,
        };
        var reading = Measured(MeasuredQuantity.ReelDiameter, null, "123.00 mm", "HG-01");

        var warm = Left(Frame([calliper], "30 degC", reading), MeasuredQuantity.ReelDiameter);
        var unknown = Left(Frame([calliper], null, reading), MeasuredQuantity.ReelDiameter);

        Assert.InRange(
            ((MeasuredValue)warm.Knowledge!).Uncertainty.Value.Millimetres,
            0.0104978m,
            0.0104980m
        );
        Assert.Equal(Mm(0.0065065m), ((MeasuredValue)unknown.Knowledge!).Uncertainty.Value);
        Assert.True(warm.Shared!.Value.Uncertainty > unknown.Shared!.Value.Uncertainty);
    }

    [Fact]
    public void Evaluate_ACertificateOnFewDegreesOfFreedom_WidensTheEndsAndNotTheTilt()
    {
        // Calibration 0.005 mm on 3; of its own √(0.001²/12 + 0.0001²) = 0.00030551 mm. At the station u = 0.0050093 on 3.02, k = 3.31
        // (JCGM 100, table G.2): U = 0.0166. The line at the ends weighs 9/8 and -1/8: u² = 25 + 82/64·0.0933 µm², u = 0.0050120,
        // on 3.03: U = 0.0166 too. Side to side only its own is left: 0.00030551·√2·1.25 = 0.00054006 mm, k = 2, and what rounding u up to 1e-7 adds.
        var few = First with
        {
            Resolution = L("0.001 mm"),
            Repeatability = L("0.0001 mm"),
            Calibration = First.Calibration! with { DegreesOfFreedom = 3 },
        };
        var frame = Frame([few], null, Height("left", "4.000 mm"), Height("right", "4.000 mm"));
        var sides = new Check.Spread(MeasuredQuantity.HeightOfCut, SpreadAcross.Sides);

        var height = CheckEvaluation.Evaluate(RuleFor(OnTarget), frame, frame.Units[0]);
        var tilt = CheckEvaluation.Evaluate(RuleFor(sides), frame, frame.Units[0]);

        Assert.Equal(4, height.Comparisons.Length);
        Assert.All(
            height.Comparisons,
            each => Assert.InRange(each.Uncertainty!.Value.Millimetres, 0.0165m, 0.0166m)
        );
        Assert.InRange(tilt.Comparisons[0].Uncertainty!.Value.Millimetres, 0.00108m, 0.00109m);
    }

    [Theory]
    // Read on 13 April by the times; the record is dated 1 June, by mistake.
    [InlineData("2026-04-13", "2027-01-10", FindingReason.None)]
    [InlineData("2026-04-14", "2027-01-10", FindingReason.GaugeUnfit)]
    [InlineData("2026-01-10", "2026-05-31", FindingReason.GaugeUnfit)]
    [InlineData("2026-01-10", "2026-06-01", FindingReason.None)]
    public void Build_ARecordDatedAfterItsTimes_ProvesByNoCalibrationThatEitherDayLacks(
        string done,
        string due,
        FindingReason expected
    )
    {
        var culture = System.Globalization.CultureInfo.InvariantCulture;
        var gauge = First with
        {
            Calibration = First.Calibration! with
            {
                Date = DateOnly.Parse(done, culture),
                Due = DateOnly.Parse(due, culture),
            },
        };
        var read = Height("left", "4.00 mm") with { At = At("2026-04-13T10:00:00Z") };
        var frame = FrameBuilder.Build(
            Record(Unit(read)) with
            {
                Date = new(2026, 6, 1),
                Instruments = [gauge],
            },
            Context,
            Book()
        );

        Assert.Equal(expected, Left(frame, MeasuredQuantity.HeightOfCut, 51).Doubt);
    }

    [Fact]
    public void Evaluate_ACoarseGauge_SaysHowGoodOneWouldHaveToBe()
    {
        var rule = new Instrument
        {
            Id = new("HG-01"),
            Kind = InstrumentKind.HeightGauge,
            Resolution = L("0.5 mm"),
        };

        var outcome = Judged([rule], Height("left", "4.0 mm"), Height("right", "4.0 mm"));

        Assert.Equal(FindingReason.GaugeCannotProve, outcome.Reason);
        Assert.EndsWith(
            "and the limit asks for 0.10 mm or better",
            outcome.Statement,
            StringComparison.Ordinal
        );
    }

    [Theory]
    // 4.095 is 0.005 inside 4.10; U = 0.013013.
    [InlineData(1, Verdict.Unproven)]
    [InlineData(0.3, Verdict.Met)]
    public void Evaluate_GuardedByAMultiple_GuardsByThatMuch(decimal factor, Verdict expected) =>
        Assert.Equal(expected, Decided(new(new DecisionRule.Guarded(factor)), "4.095 mm"));

    [Theory]
    // Quantile of 5 %: 1.6449·0.0065065 = 0.0107 > 0.005; of 30 %: 0.5244·0.0065065 = 0.0034 < 0.005.
    [InlineData(0.05, Verdict.Unproven)]
    [InlineData(0.3, Verdict.Met)]
    public void Evaluate_GuardedToARisk_GuardsByItsQuantile(decimal risk, Verdict expected) =>
        Assert.Equal(
            expected,
            Decided(new(new DecisionRule.GuardedToRisk(Probability.Of(risk))), "4.095 mm")
        );

    [Theory]
    [InlineData(LimitItself.Permitted, Verdict.Met)]
    [InlineData(LimitItself.Excluded, Verdict.NotMet)]
    public void Evaluate_ExactlyOnTheLimit_FollowsTheNamedSetting(LimitItself limit, Verdict expected) =>
        Assert.Equal(expected, Decided(RuleDecision.Simple with { LimitItself = limit }, "4.10 mm"));

    private static Verdict Decided(RuleDecision decision, string height)
    {
        var frame = Frame([First], null, Height("left", height), Height("right", height));
        var check = new Check.LimitOnQuantity(
            MeasuredQuantity.HeightOfCut,
            LimitSource.SettingOrder,
            CheckedPlaces.Stations
        );
        return CheckEvaluation.Evaluate(RuleFor(check, decision), frame, frame.Units[0]).Verdict;
    }

    internal static CheckOutcome Judged(Instrument[] gauges, params BenchEntry[] entries)
    {
        var frame = Frame(gauges, null, entries);
        return CheckEvaluation.Evaluate(RuleFor(OnTarget), frame, frame.Units[0]);
    }

    internal static JobFrame Frame(Instrument[] gauges, string? temperature, params BenchEntry[] entries) =>
        FrameBuilder.Build(
            Record(Unit(entries)) with
            {
                Instruments = [.. gauges],
                Temperature = temperature is null ? null : Temperature.Parse(temperature).OrThrow(),
            },
            Context,
            Book()
        );
}
