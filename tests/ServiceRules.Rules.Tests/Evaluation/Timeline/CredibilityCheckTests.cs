using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Tests.Evaluation.Timeline;

public sealed class CredibilityCheckTests
{
    private const string FastIsolation = """
        08:06:00 isolator_operated tech-01 source=engine_start
        08:06:01 isolator_operated tech-01 source=hydraulic
        08:06:01 lock_applied tech-01 source=engine_start lock=L-11
        08:06:02 lock_applied tech-01 source=hydraulic lock=L-12

        """;

    [Theory]
    [InlineData(CredibilityOf.NoOffset)]
    [InlineData(CredibilityOf.LateEntries)]
    [InlineData(CredibilityOf.Bursts)]
    [InlineData(CredibilityOf.BackFilled)]
    [InlineData(CredibilityOf.ClockBackward)]
    [InlineData(CredibilityOf.EntryTimes)]
    [InlineData(CredibilityOf.RecordDate)]
    public void Evaluate_CarefulTimeline_IsMet(CredibilityOf kind) =>
        Assert.Equal(Verdict.Met, Judge(MakeSafe.Complete, kind));

    [Fact]
    public void Evaluate_StepsFasterThanTheyCanBeMade_IsABurst() =>
        Assert.Equal(Verdict.Unproven, Judge(new SafetyCase().With(FastIsolation), CredibilityOf.Bursts));

    [Fact]
    public void Evaluate_FastStepsLabelledLate_AreNoBurst() =>
        Assert.Equal(
            Verdict.Met,
            Judge(
                new SafetyCase().With(
                    FastIsolation.Replace("tech-01", "tech-01 mark=transcription", StringComparison.Ordinal)
                ),
                CredibilityOf.Bursts
            )
        );

    [Fact]
    public void Evaluate_StepsFromTheSeatInOneMinute_AreNoBurst() =>
        Assert.Equal(
            Verdict.Met,
            Judge(
                new SafetyCase().With(
                    """
                    08:02 drive_disengaged tech-01
                    08:02 units_lowered tech-01
                    08:02 parking_brake_set tech-01
                    08:02 machine_shut_down tech-01
                    08:02 key_removed tech-01
                    08:02 seen_at_rest tech-01
                    """
                ),
                CredibilityOf.Bursts
            )
        );

    [Theory]
    [InlineData("08:06", Verdict.Met)]
    [InlineData("08:06:07", Verdict.Unproven)]
    public void Evaluate_FourStepsAtOneTime_AreABurstOnlyWhereSecondsWereNoted(
        string time,
        Verdict verdict
    ) =>
        Assert.Equal(
            verdict,
            Judge(
                new SafetyCase().With(
                    $"""
                    {time} isolator_operated tech-01 source=engine_start
                    {time} isolator_operated tech-01 source=hydraulic
                    {time} lock_applied tech-01 source=engine_start lock=L-11
                    {time} lock_applied tech-01 source=hydraulic lock=L-12
                    """
                ),
                CredibilityOf.Bursts
            )
        );

    [Fact]
    public void Evaluate_LabelledLateEntry_IsAdvisedAsWeakerEvidence()
    {
        var outcome = new SafetyCase()
            .With("08:02 key_removed tech-01 mark=late-entry\n" + MakeSafe.Work)
            .Judge(new Check.Credibility(CredibilityOf.LateEntries));

        Assert.Equal((Verdict.Unproven, FindingReason.NotCredible), (outcome.Verdict, outcome.Reason));
        Assert.Equal("/timeline/0", Assert.Single(outcome.Evidence));
    }

    [Theory]
    [InlineData("received=2026-04-13T16:00:00+01:00", Verdict.Unproven)]
    [InlineData("received=2026-04-13T16:00:00+01:00 mark=late-entry", Verdict.Met)]
    [InlineData("received=2026-04-13T16:00:00+01:00 mark=device-offline", Verdict.Met)]
    [InlineData("received=2026-04-13T09:30:00+01:00", Verdict.Met)]
    [InlineData("", Verdict.Met)]
    public void Evaluate_ReceivedAfterTheWork_IsBackFilledUnlessLabelled(string members, Verdict verdict) =>
        Assert.Equal(
            verdict,
            Judge(
                new SafetyCase().With($"08:02 key_removed tech-01 {members}\n" + MakeSafe.Work),
                CredibilityOf.BackFilled
            )
        );

    [Theory]
    [InlineData("08:05:00", Verdict.Unproven)]
    [InlineData("08:09:59", Verdict.Met)]
    [InlineData("08:11:00", Verdict.Met)]
    public void Evaluate_DeviceClockBack_IsDoubtedBeyondTwoSeconds(string time, Verdict verdict) =>
        Assert.Equal(
            verdict,
            Judge(
                new SafetyCase().With(
                    $"""
                    08:10:00 key_removed tech-01 device=tab-1 sequence=1
                    {time} seen_at_rest tech-01 device=tab-1 sequence=2
                    """
                ),
                CredibilityOf.ClockBackward
            )
        );

    [Theory]
    [InlineData("late-entry", Verdict.Met)]
    [InlineData("transcription", Verdict.Met)]
    [InlineData("device-offline", Verdict.Unproven)]
    public void Evaluate_EarlierTimeEnteredLater_IsNoClockBackWhereLabelled(string mark, Verdict verdict) =>
        Assert.Equal(
            verdict,
            Judge(
                new SafetyCase().With(
                    $"""
                    08:10:00 key_removed tech-01 device=tab-1 sequence=1
                    08:05:00 seen_at_rest tech-01 device=tab-1 sequence=2 mark={mark}
                    """
                ),
                CredibilityOf.ClockBackward
            )
        );

    [Fact]
    public void Evaluate_TimeWithoutOffset_IsFlaggedAndStillProvesWhereItIsClear()
    {
        var local = new SafetyCase().With("2026-04-13T08:02:00 parking_brake_set tech-01\n" + MakeSafe.Work);

        Assert.Equal(Verdict.Unproven, Judge(local, CredibilityOf.NoOffset));
        Assert.Equal(
            Verdict.Met,
            local.Judge(FoundationChecks.Before(TimelineEventKind.ParkingBrakeSet)).Verdict
        );
    }

    [Theory]
    [InlineData("08:30", "09:00", Verdict.Met)]
    [InlineData("09:00", "08:30", Verdict.Unproven)]
    [InlineData("08:10", "09:00", Verdict.Unproven)]
    [InlineData("08:20", "09:40", Verdict.Met)]
    [InlineData("08:30", "10:00", Verdict.Unproven)]
    public void Evaluate_TimesOfBenchEntries_AgreeWithTheirOrderAndTheWork(
        string first,
        string second,
        Verdict verdict
    )
    {
        var unit = new UnitWork
        {
            Id = new("U-1"),
            Sheet = "sheet",
            Entries = [Turned(first), Turned(second)],
        };

        Assert.Equal(
            verdict,
            Judge(new SafetyCase() { Units = [unit] }.With(MakeSafe.Work), CredibilityOf.EntryTimes)
        );
    }

    [Theory]
    [InlineData("2026-04-12", Verdict.Unproven)]
    [InlineData("2026-04-13", Verdict.Met)]
    [InlineData("2026-04-14", Verdict.Met)]
    [InlineData("2026-04-15", Verdict.Met)]
    [InlineData("2026-04-16", Verdict.Unproven)]
    public void Evaluate_DateOfTheRecord_IsOneOfTheDaysOfItsTimes(string date, Verdict verdict)
    {
        var threeDays = new SafetyCase { Date = DateOnly.ParseExact(date, "yyyy-MM-dd", null) }.With(
            """
            2026-04-13T08:02:00+01:00 parking_brake_set tech-01
            2026-04-15T08:02:00+01:00 handed_back tech-01
            """
        );

        Assert.Equal(verdict, Judge(threeDays, CredibilityOf.RecordDate));
    }

    [Fact]
    public void Evaluate_NoTimes_TheDateRestsOnNothing() =>
        Assert.Equal(Verdict.Unproven, Judge(new SafetyCase(), CredibilityOf.RecordDate));

    [Fact]
    public void Evaluate_TimesOfBenchEntriesAlone_HoldTheDate()
    {
        var unit = new UnitWork
        {
            Id = new("U-1"),
            Sheet = "sheet",
            Entries = [Turned("08:30")],
        };

        Assert.Equal(Verdict.Met, Judge(new SafetyCase() { Units = [unit] }, CredibilityOf.RecordDate));
    }

    private static Verdict Judge(SafetyCase safety, CredibilityOf kind) =>
        safety.Judge(new Check.Credibility(kind)).Verdict;

    private static Adjustment Turned(string time) =>
        new()
        {
            Adjuster = AdjusterKind.Clearance,
            Side = Side.Both,
            Amount = new AdjustmentAmount.NotStated(),
            At = RecordedTime.Parse($"2026-04-13T{time}:00+01:00").OrThrow(),
        };
}
