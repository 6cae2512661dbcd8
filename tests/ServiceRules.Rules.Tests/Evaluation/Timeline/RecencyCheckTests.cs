using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Tests.Evaluation.Timeline;

/// <summary>The day of the job is 2026-04-13.</summary>
public sealed class RecencyCheckTests
{
    private static readonly DateOnly Day = new(2026, 4, 13);

    [Theory]
    [InlineData(0, Verdict.Met, FindingReason.None)]
    [InlineData(-1, Verdict.NotMet, FindingReason.OutOfDate)]
    public void Evaluate_Calibration_HoldsThroughItsLastDay(
        int daysLeft,
        Verdict verdict,
        FindingReason reason
    ) =>
        Assert.Equal(
            (verdict, reason),
            Gauge(Bare with { Calibration = Calibrated(Day.AddDays(-100), Day.AddDays(daysLeft)) })
        );

    [Fact]
    public void Evaluate_CalibratedAfterTheJob_IsOutOfDate() =>
        Assert.Equal(
            (Verdict.NotMet, FindingReason.OutOfDate),
            Gauge(Bare with { Calibration = Calibrated(Day.AddDays(1), Day.AddDays(300)) })
        );

    /// <summary>The times are of the 13th throughout: dating the record otherwise makes no gauge good.</summary>
    [Theory]
    [InlineData(-10, -100, -1, Verdict.NotMet)]
    [InlineData(-10, -100, 0, Verdict.Met)]
    [InlineData(-10, 0, 100, Verdict.Met)]
    [InlineData(10, 1, 100, Verdict.NotMet)]
    [InlineData(10, -100, 9, Verdict.NotMet)]
    [InlineData(10, 0, 10, Verdict.Met)]
    public void Evaluate_DatedOtherwiseThanItsTimes_TheLaterDayCountsForWhatRunsOut(
        int dated,
        int calibrated,
        int due,
        Verdict verdict
    )
    {
        var gauge = Bare with { Calibration = Calibrated(Day.AddDays(calibrated), Day.AddDays(due)) };

        var outcome = (MakeSafe.Complete with { Date = Day.AddDays(dated), Instruments = [gauge] }).Judge(
            new Check.Recency(RecencyOf.Instruments)
        );

        Assert.Equal(verdict, outcome.Verdict);
    }

    [Fact]
    public void Evaluate_FoundFaulty_IsFaulty() =>
        Assert.Equal(
            (Verdict.NotMet, FindingReason.Faulty),
            Gauge(Bare with { Inspection = new(Day, Condition.Faulty) })
        );

    [Fact]
    public void Evaluate_NothingKnownOfTheGauge_IsUnproven() =>
        Assert.Equal((Verdict.Unproven, FindingReason.GaugeUnfit), Gauge(Bare));

    [Fact]
    public void Evaluate_PaperStrip_NeedsNothing() =>
        Assert.Equal(
            (Verdict.Met, FindingReason.None),
            Gauge(Bare with { Kind = InstrumentKind.PaperStrip })
        );

    [Fact]
    public void Evaluate_ZeroCheckAtTheStart_IsEnough() =>
        Assert.Equal(
            (Verdict.Met, FindingReason.None),
            Gauge(Bare with { ZeroCheck = new(PrintedLength.Parse("0.00 mm").OrThrow(), null) })
        );

    /// <summary>What is taken for what is not stated is told once, and changes no verdict on the gauges.</summary>
    [Theory]
    [InlineData(
        InstrumentKind.HeightGauge,
        null,
        null,
        "gauge HG-01 states no zero check and no repeatability: taken for want of them are 0.0005 in either way for its zero, the most that a fit one may be off, and half a step that it shows for how its readings scatter (common practice, no source)"
    )]
    [InlineData(
        InstrumentKind.DialGauge,
        null,
        "0.004 mm",
        "gauge HG-01 states no zero check: taken for want of one is 0.0005 in either way for its zero, the most that a fit one may be off (common practice, no source)"
    )]
    [InlineData(
        InstrumentKind.Calliper,
        "0.00 mm",
        null,
        "gauge HG-01 states no repeatability: taken for want of one is half a step that it shows for how its readings scatter (common practice, no source)"
    )]
    [InlineData(
        InstrumentKind.DiameterTape,
        null,
        null,
        "gauge HG-01 states no zero check and no repeatability: taken for want of them are 0.005 in either way for its zero, the most that a fit one may be off, and half a step that it shows for how its readings scatter (common practice, no source)"
    )]
    [InlineData(
        InstrumentKind.DiameterTape,
        null,
        "0.01 mm",
        "gauge HG-01 states no zero check: taken for want of one is 0.005 in either way for its zero, the most that a fit one may be off (common practice, no source)"
    )]
    [InlineData(InstrumentKind.HeightGauge, "0.00 mm", "0.004 mm", null)]
    [InlineData(InstrumentKind.FixedSizePiece, null, null, null)]
    [InlineData(InstrumentKind.BenchPlate, null, null, null)]
    public void Evaluate_WhatAGaugeDoesNotState_IsToldBesideAVerdictThatStays(
        InstrumentKind kind,
        string? zero,
        string? repeatability,
        string? told
    )
    {
        var gauge = Bare with
        {
            Kind = kind,
            Calibration = Calibrated(Day.AddDays(-100), Day.AddDays(100)),
            ZeroCheck = zero is null ? null : new(PrintedLength.Parse(zero).OrThrow(), null),
            Repeatability = repeatability is null ? null : PrintedLength.Parse(repeatability).OrThrow(),
        };

        var outcome = (MakeSafe.Complete with { Instruments = [gauge] }).Judge(
            new Check.Recency(RecencyOf.Instruments)
        );

        Assert.Equal(Verdict.Met, outcome.Verdict);
        Assert.Equal(told, outcome.Notices.SingleOrDefault());
    }

    [Fact]
    public void Evaluate_PersonAuthorisedAndInDate_IsMet() =>
        Assert.Equal((Verdict.Met, FindingReason.None), Person(true, Day.AddYears(-1), Day));

    [Fact]
    public void Evaluate_TrainingRunOut_IsOutOfDate() =>
        Assert.Equal(
            (Verdict.NotMet, FindingReason.OutOfDate),
            Person(true, Day.AddYears(-1), Day.AddDays(-1))
        );

    [Fact]
    public void Evaluate_NotAuthorised_IsWrongPerson() =>
        Assert.Equal((Verdict.NotMet, FindingReason.WrongPerson), Person(false, Day.AddYears(-1), null));

    [Fact]
    public void Evaluate_NoDateOfTraining_IsNotRegistered() =>
        Assert.Equal((Verdict.Unproven, FindingReason.NotRegistered), Person(true, null, null));

    [Fact]
    public void Evaluate_PersonNotInTheRegister_IsNotRegistered()
    {
        var outcome = MakeSafe.Complete.Judge(new Check.Recency(RecencyOf.Training));

        Assert.Equal((Verdict.Unproven, FindingReason.NotRegistered), (outcome.Verdict, outcome.Reason));
    }

    [Theory]
    [InlineData(0, Verdict.Met)]
    [InlineData(-1, Verdict.NotMet)]
    public void Evaluate_InspectionOfTheProcedure_HoldsThroughItsDueDay(int daysLeft, Verdict verdict)
    {
        var procedure = SafetyCase.RideOn with
        {
            InspectedOn = Day.AddYears(-1),
            InspectionDue = Day.AddDays(daysLeft),
        };

        Assert.Equal(verdict, Procedure(procedure).Verdict);
    }

    [Fact]
    public void Evaluate_InspectionNotInTheRegister_IsUnproven() =>
        Assert.Equal(Verdict.Unproven, Procedure(SafetyCase.RideOn).Verdict);

    private static Instrument Bare { get; } = new() { Id = new("HG-01"), Kind = InstrumentKind.HeightGauge };

    private static Calibration Calibrated(DateOnly on, DateOnly due) =>
        new(on, due, PrintedLength.Parse("0.010 mm").OrThrow(), 2m);

    private static (Verdict, FindingReason) Gauge(Instrument gauge)
    {
        var outcome = (MakeSafe.Complete with { Instruments = [gauge] }).Judge(
            new Check.Recency(RecencyOf.Instruments)
        );
        return (outcome.Verdict, outcome.Reason);
    }

    private static (Verdict, FindingReason) Person(bool authorised, DateOnly? on, DateOnly? until)
    {
        var outcome = (
            MakeSafe.Complete with
            {
                Register = [new RegisteredPerson(new("tech-01"), authorised, on, until)],
            }
        ).Judge(new Check.Recency(RecencyOf.Training));
        return (outcome.Verdict, outcome.Reason);
    }

    private static Rules.Evaluation.CheckOutcome Procedure(Procedure procedure) =>
        (MakeSafe.Complete with { Procedure = procedure }).Judge(
            new Check.Recency(RecencyOf.ProcedureInspection)
        );
}
