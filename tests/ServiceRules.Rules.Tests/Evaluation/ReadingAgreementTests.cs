using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation;

/// <summary>When lengths read at one place contradict one another, and what settles it.</summary>
public sealed class ReadingAgreementTests
{
    private static readonly Check OnTarget = new Check.LimitOnQuantity(
        MeasuredQuantity.HeightOfCut,
        LimitSource.SettingOrder,
        CheckedPlaces.Stations
    );

    private static readonly Instrument First = Instruments[0];

    private static readonly Instrument Second = First with { Id = new("HG-02") };

    private static readonly Instrument Third = First with { Id = new("HG-03") };

    /// <summary>
    /// One gauge: of each reading its own are 0.01²/12 + 0.003² = 1.73333e-5; of their difference twice that, root 0.00588784,
    /// U 0.0117757. Its calibration, 0.010 mm, is in both alike. Two gauges: U 0.013013 each, √2 of it 0.0184034.
    /// </summary>
    [Theory]
    [InlineData("HG-01", "4.0117 mm", KnownState.Fresh)]
    [InlineData("HG-01", "4.0118 mm", KnownState.Conflicting)]
    [InlineData("HG-01", "3.9883 mm", KnownState.Fresh)]
    [InlineData("HG-01", "3.9882 mm", KnownState.Conflicting)]
    [InlineData("HG-02", "4.0184 mm", KnownState.Fresh)]
    [InlineData("HG-02", "4.0185 mm", KnownState.Conflicting)]
    public void Build_TwoReadings_AgreeWithinTheUncertaintyOfTheirDifference(
        string second,
        string height,
        KnownState expected
    ) => Assert.Equal(expected, Known(Height("left", "4.0000 mm"), Height("left", height, second)).State);

    /// <summary>Rounding alone sets one length apart by a step: 2·√2·0.01/√12 = 0.0082 would deny it.</summary>
    [Theory]
    [InlineData("4.010 mm", KnownState.Fresh)]
    [InlineData("4.011 mm", KnownState.Conflicting)]
    public void Build_AGaugeThatHardlyScatters_AgreesWithinAStep(string second, KnownState expected)
    {
        var steady = First with { Repeatability = L("0.0001 mm") };

        var frame = Frame([steady], Height("left", "4.000 mm"), Height("left", second));

        Assert.Equal(expected, Left(frame, MeasuredQuantity.HeightOfCut, 51).State);
    }

    /// <summary>Half a step is taken for its scatter: 2·√2·√(0.01²/12 + 0.005²) = 0.01633.</summary>
    [Theory]
    [InlineData("4.0163 mm", KnownState.Fresh)]
    [InlineData("4.0164 mm", KnownState.Conflicting)]
    public void Build_AGaugeThatStatesNoScatter_AgreesWithinWhatIsTakenForIt(
        string second,
        KnownState expected
    )
    {
        var bare = First with { Repeatability = null };

        var frame = Frame([bare], Height("left", "4.000 mm"), Height("left", second));

        Assert.Equal(expected, Left(frame, MeasuredQuantity.HeightOfCut, 51).State);
    }

    /// <summary>A step that the gauge does not state is the last digit written down: 2·√(0.1²/12 + 0.01²/12) = 0.058 mm.</summary>
    [Theory]
    [InlineData("4.05 mm", KnownState.Fresh)]
    [InlineData("4.06 mm", KnownState.Conflicting)]
    public void Build_ReadingsOfDifferentDigits_AreHeldByTheStepOfEach(string second, KnownState expected)
    {
        var bare = First with { Repeatability = L("0.0001 mm"), Resolution = null };

        var frame = Frame([bare], Height("left", "4.0 mm"), Height("left", second));

        Assert.Equal(expected, Left(frame, MeasuredQuantity.HeightOfCut, 51).State);
    }

    /// <summary>Own: 1.73333e-5 + 0.01²/3 = 5.06667e-5; √2 of the root 0.0100664, U 0.0201328.</summary>
    [Theory]
    [InlineData("4.020 mm", KnownState.Fresh)]
    [InlineData("4.021 mm", KnownState.Conflicting)]
    public void Build_ADriftOfTheZero_ExplainsADifference(string second, KnownState expected)
    {
        var drifted = First with
        {
            ZeroCheck = new(L("0.00 mm"), null),
            ZeroCheckAfter = new(L("0.01 mm"), null),
        };

        var frame = Frame([drifted], Height("left", "4.000 mm"), Height("left", second));

        Assert.Equal(expected, Left(frame, MeasuredQuantity.HeightOfCut, 51).State);
    }

    /// <summary>
    /// Own 1.73333e-5 on 3.7 degrees of freedom is ± 0.0146 for one reading; its scatter by itself, on one, is 13.968 · 0.003 =
    /// 0.0419 (JCGM 100, table G.2 with 95.45 %) and counts: √2 of that, 0.05926, for the difference.
    /// </summary>
    [Theory]
    [InlineData("4.0592 mm", KnownState.Fresh)]
    [InlineData("4.0594 mm", KnownState.Conflicting)]
    public void Build_AScatterFromFewReadings_IsCoveredByStudentsFactor(string second, KnownState expected)
    {
        var studied = First with { Repeatability = null, RepeatabilityStudies = [new(L("0.003 mm"), 1)] };

        var frame = Frame([studied], Height("left", "4.0000 mm"), Height("left", second));

        Assert.Equal(expected, Left(frame, MeasuredQuantity.HeightOfCut, 51).State);
    }

    [Theory]
    // More readings must agree with the latest than do not: reading until the answer comes twice settles nothing.
    [InlineData("3.95 4.00", 1, false)]
    [InlineData("3.95 4.00 4.00", 2, true)]
    [InlineData("3.95 3.95 4.00 4.00", 2, false)]
    [InlineData("3.95 3.95 4.00 4.00 4.00", 3, true)]
    [InlineData("4.00 4.00 3.95 4.00", 1, false)]
    [InlineData("4.00 4.00 3.95 4.00 4.00", 2, true)]
    public void Build_AfterAContradiction_IsSettledByMoreReadingsThanItHas(
        string read,
        int counting,
        bool isSettled
    )
    {
        var known = Known([.. read.Split(' ').Select(height => Height("left", height + " mm"))]);

        Assert.Equal(isSettled ? KnownState.Fresh : KnownState.Conflicting, known.State);
        if (counting == 1)
        {
            Assert.Null(known.Knowledge);
            Assert.Equal(read.Split(' ').Length, known.Contested.Length);
            return;
        }

        Assert.Equal(Mm(4m), ((MeasuredValue)known.Knowledge!).Value);
        Assert.Equal(counting, known.Counted!.Counting);
        Assert.Equal(isSettled ? FindingReason.None : FindingReason.Conflicting, known.Doubt);
    }

    [Theory]
    // However often the second gauge is read, it is one gauge against one; a third, or the first read again, decides.
    [InlineData("HG-01:4.00 HG-02:4.03 HG-02:4.03 HG-02:4.03", false)]
    [InlineData("HG-01:4.00 HG-02:4.03 HG-02:4.03 HG-03:4.03", true)]
    [InlineData("HG-01:4.00 HG-02:4.03 HG-02:4.03 HG-01:4.03", true)]
    [InlineData("HG-01:4.00 HG-03:4.00 HG-02:4.03 HG-02:4.03 HG-02:4.03", false)]
    public void Build_GaugesThatDisagree_AreSettledByMoreGauges(string read, bool isSettled)
    {
        var known = Known([
            .. read.Split(' ')
                .Select(each => each.Split(':'))
                .Select(each => Height("left", each[1] + " mm", each[0])),
        ]);

        Assert.Equal(isSettled ? KnownState.Fresh : KnownState.Conflicting, known.State);
        Assert.Equal(Mm(4.03m), ((MeasuredValue)known.Knowledge!).Value);
        Assert.Equal(isSettled, known.Counted!.IsSettled);
    }

    [Fact]
    public void Evaluate_TheLastTwoOutAgainstManyIn_IsOutAllTheSame()
    {
        var outcome = Judged(
            Height("left", "4.00 mm"),
            Height("left", "4.00 mm"),
            Height("left", "4.20 mm"),
            Height("left", "4.20 mm"),
            Height("right", "4.00 mm")
        );

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
    }

    [Fact]
    public void Evaluate_TheLastTwoInAgainstTwoOut_ProvesNothing()
    {
        var outcome = Judged(
            Height("left", "4.20 mm"),
            Height("left", "4.20 mm"),
            Height("left", "4.00 mm"),
            Height("left", "4.00 mm"),
            Height("right", "4.00 mm")
        );

        Assert.Equal((Verdict.Unproven, FindingReason.Conflicting), (outcome.Verdict, outcome.Reason));
        Assert.Contains(
            outcome.Notices,
            notice =>
                notice.StartsWith(
                    "left (51 mm): of 4 readings the last 2 count, since the one before, 4.20 mm, contradicts the latest, and they show",
                    StringComparison.Ordinal
                )
        );
    }

    [Fact]
    public void Evaluate_ManyReadings_SaysHowManyCount()
    {
        BenchEntry[] read =
        [
            .. Enumerable.Repeat(Height("left", "4.00 mm"), 187),
            Height("left", "4.05 mm"),
            .. Enumerable.Repeat(Height("left", "4.00 mm"), 12),
            Height("right", "4.00 mm"),
        ];

        var outcome = Judged(read);

        Assert.Equal(Verdict.Met, outcome.Verdict);
        Assert.Equal(
            "left (51 mm): of 200 readings the last 12 count, since the one before, 4.05 mm, contradicts the latest (1 of them contradicts it)",
            Assert.Single(outcome.Notices)
        );
    }

    [Fact]
    public void Evaluate_OneGaugeThatContradictsItself_SaysWhatToLookAt()
    {
        var outcome = Judged(
            Height("left", "4.00 mm"),
            Height("left", "4.02 mm"),
            Height("right", "4.00 mm")
        );

        Assert.Equal((Verdict.Unproven, FindingReason.Conflicting), (outcome.Verdict, outcome.Reason));
        var told = Assert.Single(outcome.Notices);
        Assert.StartsWith("left (51 mm): HG-01 read 0.020 mm apart", told, StringComparison.Ordinal);
        Assert.Contains("explain 0.012 mm", told, StringComparison.Ordinal);
        Assert.DoesNotContain("is not stated", told, StringComparison.Ordinal);
    }

    [Fact]
    public void Evaluate_AGaugeOfUnstatedScatterThatContradictsItself_AsksForItsScatter()
    {
        var frame = Frame(
            [First with { Repeatability = null }],
            Height("left", "4.00 mm"),
            Height("left", "4.02 mm"),
            Height("right", "4.00 mm")
        );

        var outcome = CheckEvaluation.Evaluate(RuleFor(OnTarget), frame, frame.Units[0]);

        Assert.EndsWith(
            "how well it repeats is not stated, and if it scatters like that, state it",
            Assert.Single(outcome.Notices),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Evaluate_AThirdGaugeThatDecides_NamesTheOddOne()
    {
        var outcome = Judged(
            Height("left", "4.00 mm"),
            Height("left", "4.03 mm", "HG-02"),
            Height("left", "4.03 mm", "HG-03"),
            Height("right", "4.03 mm", "HG-03")
        );

        Assert.Equal(Verdict.Met, outcome.Verdict);
        Assert.EndsWith(
            "more gauges read as HG-03 does, and that counts",
            outcome.Notices[^1],
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Evaluate_BothReadingsOut_IsOutThoughTheyContradictOneAnother()
    {
        var outcome = Judged(
            Height("left", "4.20 mm"),
            Height("left", "4.25 mm"),
            Height("right", "4.00 mm")
        );

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
    }

    [Fact]
    public void Evaluate_PresenceOfAContestedReading_TellsTheGauges()
    {
        var frame = Frame(
            [First, Second],
            Height("left", "4.00 mm"),
            Height("left", "4.03 mm", "HG-02"),
            Height("right", "4.00 mm")
        );
        var presence = new Check.Presence(
            MeasuredQuantity.HeightOfCut,
            RequiredPhase.Left,
            RequiredPlaces.BothStations
        );

        var outcome = CheckEvaluation.Evaluate(RuleFor(presence), frame, frame.Units[0]);

        Assert.Equal(Verdict.Unproven, outcome.Verdict);
        // 0.030 / 0.0184034 = 1.63.
        Assert.Contains(
            "(normalised error 1.63, above 1)",
            Assert.Single(outcome.Notices),
            StringComparison.Ordinal
        );
    }

    private static PlaceKnown Known(params BenchEntry[] entries) =>
        Left(Frame([First, Second, Third], entries), MeasuredQuantity.HeightOfCut, 51);

    private static CheckOutcome Judged(params BenchEntry[] entries)
    {
        var frame = Frame([First, Second, Third], entries);
        return CheckEvaluation.Evaluate(RuleFor(OnTarget), frame, frame.Units[0]);
    }

    private static JobFrame Frame(Instrument[] gauges, params BenchEntry[] entries) =>
        FrameBuilder.Build(Record(Unit(entries)) with { Instruments = [.. gauges] }, Context, Book());
}
