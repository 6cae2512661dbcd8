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
        // d = Σnc/Σn² = (1·0.012 + 3·0.030)/10 = 0.0102; departures 0.0018 and -0.0006, s²/2 = 1.8e-6 a reading, far inside u,
        // but not of the first ones, which count as exact: √((1.8e-6 + 9e-6)/10) = 0.0010393.
        var learned = LearnedStep.From([Trial(1m, 0.012m), Trial(3m, 0.030m)])!;

        Assert.Equal(0.0102m, learned.PerStep.Value());
        Assert.Equal(0.0010393m, learned.PerStep.U());
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
        // Steps 0.02 and 0.00 with u = 0.001: mean 0.01, s = 0.01·√2 of the changes, u = s/√2 = 0.01.
        var learned = LearnedStep.From([Trial(1m, 0.020m, 0.001m), Trial(1m, 0.000m, 0.001m)])!;

        Assert.Equal(0.010m, learned.PerStep.Value());
        Near(0.010m, learned.PerStep.U(), 0.0000002m);
    }

    /// <summary>
    /// 0.040 over 4 steps and 0.026 over 2: d = (4·0.040 + 2·0.026)/20 = 0.0106, departures -0.0024 and 0.0048, s² = 28.8e-6,
    /// each reading no less than s/√2 = 0.0037947. Four readings alike: 0.0037947·√(2·20)/20 = 0.0012. The last one known
    /// to 0.006: √(14.4e-6·36 + 36e-6·4)/20 = 0.0012869. (Weighted by their uncertainties, with the ratio of the scatter to
    /// them, it would be 0.0012 and then 0.00035.)
    /// </summary>
    [Theory]
    [InlineData(0.001, 0.0012)]
    [InlineData(0.006, 0.0012869)]
    public void From_TrialsOfWhichOneReadingIsKnownWorse_LearnTheStepNoCloser(double last, double expected)
    {
        var learned = LearnedStep.From([
            StepTrial.Between(4m, new(Read(0.010m, 0.001m)), new(Read(0.050m, 0.001m))),
            StepTrial.Between(2m, new(Read(0.050m, 0.001m)), new(Read(0.076m, (decimal)last))),
        ])!;

        Assert.Equal(0.0106m, learned.PerStep.Value());
        Near((decimal)expected, learned.PerStep.U(), 2 * Quantum);
    }

    [Fact]
    public void From_TrialsKnownUnequally_CountsEachAsItIsKnown()
    {
        // 0.010 with u = 0.001 and 0.013 with 0.002: 0.0115, s²/2 = 2.25e-6 a reading, 0.0015, which 0.002 is more than:
        // √(3·2.25e-6 + 4e-6)/2 = 0.0016394.
        var learned = LearnedStep.From([Trial(1m, 0.010m, 0.001m), Trial(1m, 0.013m, 0.002m)])!;

        Assert.Equal(0.0115m, learned.PerStep.Value());
        Near(0.0016394m, learned.PerStep.U(), 2 * Quantum);
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
    public void From_OneTrialExactlyKnown_IsScatteredAboutAsWell()
    {
        // 0.010 and 0.012: s² = 2e-6, s²/2 = 1e-6 a reading; with 0.003 for the last: √(3·1e-6 + 9e-6)/2 = 0.0017321.
        var learned = LearnedStep.From([Trial(1m, 0.010m, 0m), Trial(1m, 0.012m)])!;

        Assert.Equal(0.011m, learned.PerStep.Value());
        Near(0.0017321m, learned.PerStep.U(), 2 * Quantum);
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

    // 0.012 ± 0.006 and 0.025 ± 0.006 exclude one another, 0.012 and 0.024 meet at 0.018; of none nothing is said.
    [Fact]
    public void Differ_TrialsToldEachAlone_AreThoseThatExcludeOneAnother()
    {
        Assert.True(LearnedStep.Differ([Trial(1m, 0.012m), Trial(1m, 0.025m)]));
        Assert.False(LearnedStep.Differ([Trial(1m, 0.012m), Trial(1m, 0.024m)]));
        Assert.False(LearnedStep.Differ([]));
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

    private static TrialReading By(string gauge, decimal value, decimal u = 0.002m) =>
        new(Read(value, u), new SharedError(StandardUncertainty.From(Mm(0m)), gauge));

    /// <summary>0.003 a step by both gauges, ± 0.0014 each: what all trials together prove is not told by one of them.</summary>
    [Fact]
    public void Proving_WhatAllTrialsProve_IsTheWhole()
    {
        var learned = LearnedStep.From([
            StepTrial.Between(4m, By("one", 0m), By("one", 0.012m)),
            StepTrial.Between(4m, By("other", 0m), By("other", 0.012m)),
        ])!;

        Assert.Equal(StepAnswer.MovesLess, learned.Against(Mm(0.0127m)));
        Assert.Same(learned, learned.Proving(Mm(0.0127m)));
    }

    /// <summary>
    /// 0.003 and 0.022 a step, which together, 0.0125, prove nothing against 0.0127, while each gauge by itself does, as well as
    /// the other: the first by name is told, of the reading before and then of the one after, in whatever order the trials stand.
    /// </summary>
    [Theory]
    [InlineData("a", "a", "b", "b")]
    [InlineData("a", "a", "a", "b")]
    public void Proving_SeveralGaugesThatProve_TellsTheFirstByName(
        string before,
        string after,
        string otherBefore,
        string otherAfter
    )
    {
        var less = StepTrial.Between(4m, By(before, 0m), By(after, 0.012m));
        var more = StepTrial.Between(4m, By(otherBefore, 0m), By(otherAfter, 0.088m));

        foreach (var learned in new[] { LearnedStep.From([less, more])!, LearnedStep.From([more, less])! })
        {
            Assert.True(learned.PerStep.AsInterval().Contains(Mm(0.0127m)));
            Assert.Equal(0.003m, learned.Proving(Mm(0.0127m)).PerStep.Value());
        }
    }

    /// <summary>
    /// By a fine gauge 0.003 ± 0.0014 a step, by a coarse one 0.030 ± 0.0028, together 0.0165 with a scatter that proves nothing: the
    /// fine one is told, whichever name sorts first.
    /// </summary>
    [Theory]
    [InlineData("a", "b")]
    [InlineData("b", "a")]
    public void Proving_SeveralGaugesThatProve_TellsTheBestKnown(string fine, string coarse)
    {
        var learned = LearnedStep.From([
            StepTrial.Between(4m, By(fine, 0m), By(fine, 0.012m)),
            StepTrial.Between(4m, By(coarse, 0m, 0.004m), By(coarse, 0.120m, 0.004m)),
        ])!;

        Assert.True(learned.PerStep.AsInterval().Contains(Mm(0.0127m)));
        Assert.Equal(0.003m, learned.Proving(Mm(0.0127m)).PerStep.Value());
    }

    /// <summary>A third has no end in decimals: one trial departs from itself by its last digit, and that is no scatter.</summary>
    [Fact]
    public void From_OneTrialOfAThird_HasNoScatter()
    {
        var learned = LearnedStep.From([Trial(3m, 0.010m)])!;

        Assert.Equal(0.003333333333m, learned.PerStep.Value());
        Near(0.001m, learned.PerStep.U(), 2 * Quantum);
    }

    /// <summary>
    /// By the fine gauge 4 steps moved it 0.012, u = 0.002·√2/4: 0.003 ± 0.0014. By the coarse one 0.060: 0.015 ± 0.0141. Together
    /// 0.009, departures of 0.024, 0.024·√4·4/32 = 0.006: 0.009 ± 0.012, which leaves a step of 0.0127.
    /// </summary>
    [Fact]
    public void Against_AFineGaugesProofBesideACoarseGauge_StandsByItself()
    {
        var fine = Trial(0.002m, "fine", 0.012m);
        var coarse = Trial(0.020m, "coarse", 0.060m);

        foreach (
            var learned in new[] { LearnedStep.From([fine, coarse])!, LearnedStep.From([coarse, fine])! }
        )
        {
            Near(0.006m, learned.PerStep.U(), 2 * Quantum);
            Assert.Equal(StepAnswer.MovesLess, learned.Against(Mm(0.0127m)));
            Assert.Equal(0.003m, learned.Proving(Mm(0.0127m)).PerStep.Value());
            Assert.Same(learned, learned.Proving(Mm(0.003m)));
        }

        Assert.Equal(StepAnswer.Agrees, LearnedStep.From([coarse])!.Against(Mm(0.0127m)));

        static StepTrial Trial(decimal u, string gauge, decimal change)
        {
            var shared = new SharedError(StandardUncertainty.From(Mm(0m)), gauge);
            return StepTrial.Between(4m, new(Read(0m, u), shared), new(Read(change, u), shared));
        }
    }

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

    /// <summary>
    /// Readings one after another with steps between. Any error of one grown - what its gauge shows, how it repeats, its
    /// certificate - never leaves the step closer known, and never proves it to be another than stated.
    /// </summary>
    [Property(MaxTest = PropertyCases.Each)]
    public void From_ReadingsOfWhichOneIsKnownWorse_NeverLearnsTheStepCloser(
        (sbyte Steps, short At, byte Shown, byte Repeats, byte Known, byte Certificate, bool Other)[] read,
        byte which,
        byte what,
        byte more,
        short stated
    )
    {
        var taken = read.Take(6).ToImmutableArray();
        if (taken.Length < 2)
        {
            return;
        }

        var one = which % taken.Length;
        var less = Learned(_ => (0, 0, 0));
        var worse = Learned(i =>
            what % 3 == 2 ? (0, 0, more)
            : i != one ? (0, 0, 0)
            : what % 3 == 1 ? (0, more, 0)
            : (more, 0, 0)
        );

        // Each is rounded up to 1e-7 by itself.
        Assert.True(
            U(less) <= U(worse) + (2 * Quantum),
            $"{less.PerStep}, U {U(less)}, fell to {worse.PerStep}, U {U(worse)}"
        );
        var step = Mm(stated * 0.00001m);
        var (was, became) = (less.Against(step), worse.Against(step));
        Assert.True(became == was || became is StepAnswer.Agrees, $"{was} became {became}");

        LearnedStep Learned(Func<int, (int Shown, int Repeats, int Certificate)> grown)
        {
            ImmutableArray<TrialReading> readings = [.. taken.Select((_, i) => Reading(i, grown(i)))];
            return LearnedStep.From([
                .. Enumerable
                    .Range(1, readings.Length - 1)
                    .Select(i =>
                        StepTrial.Between(
                            taken[i].Steps == 0 ? 1 : taken[i].Steps,
                            readings[i - 1],
                            readings[i]
                        )
                    ),
            ])!;
        }

        TrialReading Reading(int index, (int Shown, int Repeats, int Certificate) grown)
        {
            var each = taken[index];
            var gauge = taken.Last(r => r.Other == each.Other);
            var own = UncertaintyBudget.Of(
                UncertaintyContribution.Resolution(Mm((1 + each.Shown + grown.Shown) * 0.0005m)),
                UncertaintyContribution.Repeatability(
                    Mm((each.Repeats + 1 + grown.Repeats) * 0.0001m),
                    gauge.Known == 0 ? DegreesOfFreedom.Infinite : DegreesOfFreedom.Of(gauge.Known),
                    1
                )
            );
            var shared = UncertaintyBudget.Of(
                UncertaintyContribution.Calibration(
                    Mm((gauge.Certificate + 1 + grown.Certificate) * 0.0002m),
                    2m
                )
            );
            return new(
                UncertaintyBudget
                    .Of([.. own.Contributions, .. shared.Contributions])
                    .Around(Mm(each.At * 0.00001m)),
                shared.SharedBy(each.Other ? "other" : "one").WithRest(own)
            );
        }
    }

    private static decimal U(LearnedStep learned) =>
        ((MeasuredValue)learned.PerStep).Expanded.Value.Millimetres;
}
