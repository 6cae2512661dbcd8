using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation.Duties;
using ServiceRules.Rules.Tests.Evaluation.Timeline;
using static ServiceRules.Rules.Tests.Evaluation.Duties.Registers;

namespace ServiceRules.Rules.Tests.Evaluation.Duties;

/// <summary>Whose hands are out on an open job and may not go in again; tech-01 has stopped.</summary>
public sealed class BackInTests
{
    private const string SoFar = MakeSafe.Seat + MakeSafe.Isolation + MakeSafe.Work;

    private static readonly SafetyCase Open = MakeSafe.Complete with { IsSignedOff = false };

    /// <summary>A scraper brushed while mowing; nothing was ever isolated.</summary>
    private static readonly SafetyCase Scraper = (
        InOrder with
        {
            IsSignedOff = false,
            Recorded = record =>
                record with
                {
                    Setting = WorkSetting.InUse,
                    HandsInBladeZone = false,
                    Tasks = [ServiceTask.DailyCheck],
                },
        }
    )
        .With("08:01 machine_shut_down tech-01\n08:03 work_started tech-01\n08:05 work_stopped tech-01")
        .Measured("08:02 alternative_measures_recorded tech-01", ProtectiveMeasure.LongHandledBrush);

    private static readonly ExemptionClaim Minor = new(
        ExemptionKind.MinorServicing,
        Routine: true,
        Repetitive: true,
        Integral: true
    );

    [Fact]
    public void Of_LockOff_TellsWhatIsLacking() =>
        Assert.Contains(
            "tech-01's own lock on engine start",
            Assert
                .Single(
                    BackIn.Of(
                        Open.With(SoFar + "09:47 lock_removed tech-01 source=engine_start lock=L-11")
                            .OpenJob()
                    )
                )
                .Lacks
        );

    [Theory]
    [InlineData("")]
    [InlineData("09:45 work_started tech-01")]
    [InlineData("09:47 lock_removed tech-01 source=engine_start lock=L-11\n09:50 handed_back tech-01")]
    public void Of_StillProtectedOrAtWorkOrHandedBack_IsNobody(string more) =>
        Assert.Empty(BackIn.Of(Open.With(SoFar + more).OpenJob()));

    /// <summary>A claim that holds takes lockout off the job: nothing keeps hands out for want of it.</summary>
    [Fact]
    public void Of_ClaimOfMinorServicingThatHolds_IsNobody() =>
        Assert.Empty(BackIn.Of(Scraper.Claiming(Minor).OpenJob()));

    [Fact]
    public void Of_NoClaim_TellsWhatIsLacking() => Assert.NotEmpty(BackIn.Of(Scraper.OpenJob()));

    /// <summary>One that does not hold lifts nothing.</summary>
    [Fact]
    public void Of_ClaimThatDoesNotHold_TellsWhatIsLacking() =>
        Assert.NotEmpty(BackIn.Of(Scraper.Claiming(Minor with { Routine = false }).OpenJob()));
}
