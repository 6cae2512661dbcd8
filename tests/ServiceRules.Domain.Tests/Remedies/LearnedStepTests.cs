using System.Collections.Immutable;
using FsCheck.Xunit;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Tests.Geometry;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Remedies;

public sealed class LearnedStepTests
{
    private static MeasuredValue Read(decimal value, decimal u = 0.003m) =>
        new(Mm(value), StandardUncertainty.From(Mm(u)));

    private static StepTrial Trial(decimal steps, decimal change, decimal u = 0.003m) =>
        Change(steps, Read(change, u));

    /// <summary>From a reading that is exactly known, so that the change is known as given.</summary>
    private static StepTrial Change(decimal steps, Knowledge change) =>
        StepTrial.Between(steps, new(MeasuredValue.Exact(Mm(0m))), new(change));

    private static StepTrial Between(decimal steps, decimal least, decimal most) =>
        Change(steps, LengthInterval.Between(Mm(least), Mm(most)));

    // Uncertainties are kept to 1e-7, rounded up.
    private const decimal Quantum = 0.0000001m;

    private static SharedError OfGauge => new(StandardUncertainty.From(Mm(0.003m)), "gauge");

    [Fact]
    public void Between_ReadingsOfOneGauge_LeaveOutWhatTheyShare()
    {
        // u = 0.005 each, 0.003 of it shared: 0.004·√2 = 0.0056569 of the difference.
        var trial = StepTrial.Between(
            -3m,
            new(Read(0.060m, 0.005m), OfGauge),
            new(Read(0.030m, 0.005m), OfGauge)
        );

        Assert.Equal(-3m, trial.Steps);
        Assert.Equal(-0.030m, trial.Change.Value());
        Assert.Equal(0.0056569m, trial.Change.U());
        var refusal = Assert.Throws<ArgumentOutOfRangeException>(() => Change(0m, Read(1m)));
        Assert.Contains("accepted is any number but zero", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void From_OneTrial_DividesChangeAndUncertaintyByTheSteps()
    {
        var learned = LearnedStep.From([Trial(-3m, -0.030m, 0.0045m)])!;

        Assert.Equal(0.010m, learned.PerStep.Value());
        Assert.Equal(0.0015m, learned.PerStep.U());
        Assert.Equal(Mm(0.010m), learned.Best);
    }

    [Fact]
    public void From_TwoTrials_WeighsEachBySteps()
    {
        // d = Σnc/Σn² = (1·0.012 + 3·0.030)/10 = 0.0102 for equal u; u(d) = u/√10, and the residuals 0.0018 and
        // -0.0006 are far inside u.
        var learned = LearnedStep.From([Trial(1m, 0.012m), Trial(3m, 0.030m)])!;

        Assert.Equal(0.0102m, learned.PerStep.Value());
        Assert.Equal(0.0009487m, learned.PerStep.U());
        Assert.Equal(2, learned.Trials.Length);
    }

    [Fact]
    public void From_TrialsThatShareTheReadingBetween_CountItOnce()
    {
        // A, B, C with u = 0.003 each, three steps open and three closed: d = (2B - A - C)/6, u² = 6u²/36, 0.003/√6 =
        // 0.0012248; taken as four readings it would be 4u²/36, 0.001. On by three steps twice B drops out: d = (C - A)/6,
        // 0.003·√2/6 = 0.00070711. Two readings that merely read alike are two.
        var (a, b, c) = (Single(0.040m), Single(0.070m), Single(0.040m));
        var on = Single(0.100m);

        Near(0.0012248m, Pooled(StepTrial.Between(3m, a, b), StepTrial.Between(-3m, b, c)), Quantum);
        Near(0.0007071m, Pooled(StepTrial.Between(3m, a, b), StepTrial.Between(3m, b, on)), Quantum);
        Near(0.001m, Pooled(StepTrial.Between(3m, a, b), StepTrial.Between(3m, c, Single(0.070m))), Quantum);

        static TrialReading Single(decimal value) => new(Read(value));

        static decimal Pooled(params StepTrial[] trials)
        {
            var perStep = LearnedStep.From([.. trials])!.PerStep;
            Assert.Equal(0.010m, perStep.Value());
            return perStep.U();
        }
    }

    [Fact]
    public void From_TrialsThatScatter_AreLessSure()
    {
        // Steps 0.02 and 0.00 with u = 0.001: mean 0.01, each 10 u off, Birge √(200/1), u = 0.001/√2·√200 = 0.01.
        var learned = LearnedStep.From([Trial(1m, 0.020m, 0.001m), Trial(1m, 0.000m, 0.001m)])!;

        Assert.Equal(0.010m, learned.PerStep.Value());
        Near(0.010m, learned.PerStep.U(), 0.0000002m);
    }

    [Fact]
    public void From_TrialsKnownUnequally_CountsTheWorseKnownLess()
    {
        // 0.010 with u = 0.001 and 0.013 with 0.002: weights 4 to 1, 0.0106. Residuals of 0.6 u and 1.2 u: √1.8 times
        // 0.001·2/√5.
        var learned = LearnedStep.From([Trial(1m, 0.010m, 0.001m), Trial(1m, 0.013m, 0.002m)])!;

        Assert.Equal(0.0106m, learned.PerStep.Value());
        Near(0.0012m, learned.PerStep.U(), 2 * Quantum);
    }

    [Fact]
    public void From_ThreeTrialsThatScatter_HaveTwoDegreesOfFreedomLeft()
    {
        // 0.02, 0.00 and 0.01 with u = 0.001: Σ = 200 over two, times 0.001/√3: 0.0057735.
        var learned = LearnedStep.From([
            Trial(1m, 0.020m, 0.001m),
            Trial(1m, 0.000m, 0.001m),
            Trial(1m, 0.010m, 0.001m),
        ])!;

        Assert.Equal(0.010m, learned.PerStep.Value());
        Near(0.0057735m, learned.PerStep.U(), 2 * Quantum);
    }

    [Fact]
    public void From_OneTrialExactlyKnown_GoesByItAlone()
    {
        var learned = LearnedStep.From([Trial(1m, 0.010m, 0m), Trial(1m, 0.012m)])!;

        Near(0.010m, learned.PerStep.Value(), Quantum);
        Near(0m, learned.PerStep.U(), 2 * Quantum);
    }

    [Fact]
    public void From_ReadingsOfOneGauge_LeavesOutWhatTheyShare()
    {
        // √(0.005² - 0.003²)·√2/3 = 0.0018856 a step.
        var learned = LearnedStep.From([
            StepTrial.Between(-3m, new(Read(0.060m, 0.005m), OfGauge), new(Read(0.030m, 0.005m), OfGauge)),
        ])!;

        Near(0.0018856m, learned.PerStep.U(), 2 * Quantum);
    }

    [Fact]
    public void From_Intervals_KeepsWhatAllAllow()
    {
        var learned = LearnedStep.From([Between(2m, 0.010m, 0.030m), Between(-4m, -0.040m, -0.036m)])!;

        Assert.Equal(LengthInterval.Between(Mm(0.009m), Mm(0.010m)), learned.PerStep);
        Assert.Equal(Mm(0.0095m), learned.Best);
    }

    [Fact]
    public void From_AnIntervalAmongMeasured_CountsAllAsIntervals()
    {
        // 0.012 ± 0.006 a step and 0.004 to 0.007 a step share 0.006 to 0.007.
        var learned = LearnedStep.From([Trial(1m, 0.012m), Between(2m, 0.008m, 0.014m)])!;

        Assert.Equal(LengthInterval.Between(Mm(0.006m), Mm(0.007m)), learned.PerStep);
    }

    [Fact]
    public void From_TrialsThatExcludeOneAnother_IsNothing()
    {
        Assert.Null(LearnedStep.From([Between(1m, 0.010m, 0.012m), Between(1m, 0.013m, 0.014m)]));
        Assert.Null(LearnedStep.From([]));
        Assert.Null(LearnedStep.From([Change(1m, LengthInterval.Unbounded)]));
    }

    [Fact]
    public void Best_OfAnIntervalWithOneEnd_IsNothing() =>
        Assert.Null(LearnedStep.From([Change(1m, LengthInterval.AtLeast(Mm(0.01m)))])!.Best);

    [Theory]
    // U = 2·0.003/3 = 0.002 a step about 0.010: equality is agreement.
    [InlineData(0.012, StepAnswer.Agrees)]
    [InlineData(0.008, StepAnswer.Agrees)]
    [InlineData(0.0120001, StepAnswer.MovesLess)]
    [InlineData(0.0079999, StepAnswer.MovesMore)]
    public void Against_AStatedStep_IsProvenOtherwiseOnlyBeyondTheDoubt(decimal stated, StepAnswer answer) =>
        Assert.Equal(answer, LearnedStep.From([Trial(3m, 0.030m)])!.Against(Mm(stated)));

    [Fact]
    public void Against_AnOpenEnd_IsAlreadyBeyondIt()
    {
        _ = LengthInterval.TryCreate(IntervalEnd.Open(Mm(0.01m)), IntervalEnd.Open(Mm(0.02m)), out var open);
        var learned = LearnedStep.From([Change(1m, open!)])!;

        Assert.Equal(StepAnswer.MovesMore, learned.Against(Mm(0.01m)));
        Assert.Equal(StepAnswer.MovesLess, learned.Against(Mm(0.02m)));
        Assert.Equal(StepAnswer.Agrees, learned.Against(Mm(0.015m)));
    }

    [Property(MaxTest = PropertyCases.Each)]
    public void From_TrialsOfOneStep_LearnIt(short step, byte[] steps)
    {
        ImmutableArray<StepTrial> trials =
        [
            .. steps.Take(12).Select(n => Trial((n % 9) - 9, ((n % 9) - 9) * step * 0.0001m)),
        ];
        if (LearnedStep.From(trials) is not { } learned)
        {
            Assert.Empty(trials);
            return;
        }

        Near(step * 0.0001m, learned.PerStep.Value());
        Assert.Equal(StepAnswer.Agrees, learned.Against(Mm(step * 0.0001m)));
        Assert.Equal(learned.PerStep, LearnedStep.From([.. trials.Reverse()])!.PerStep);
    }
}
