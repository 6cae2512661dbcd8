using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Evaluation.Timeline;
using ServiceRules.Rules.Model;
using ServiceRules.Rules.Tests.Evaluation.Duties;

namespace ServiceRules.Rules.Tests.Evaluation.Timeline;

/// <summary>Words of a step that say it was not so prove nothing; honest words of the same step prove it.</summary>
public sealed class DeniedStepTests
{
    private static readonly Check.RequiredEvent People = FoundationChecks.After(
        TimelineEventKind.PeopleClearChecked
    );

    [Theory]
    [InlineData(TimelineEventKind.SeenAtRest, "reel still turning")]
    [InlineData(TimelineEventKind.SeenAtRest, "not yet at rest")]
    [InlineData(TimelineEventKind.SeenAtRest, "did not look")]
    [InlineData(TimelineEventKind.KeyRemoved, "key left in the switch")]
    [InlineData(TimelineEventKind.IsolatorOperated, "disconnect would not turn")]
    [InlineData(TimelineEventKind.IsolatorOperated, "still on")]
    [InlineData(TimelineEventKind.ParkingBrakeSet, "brake does not hold")]
    [InlineData(TimelineEventKind.GlovesWorn, "no gloves to be had")]
    [InlineData(TimelineEventKind.UnitsLowered, "left unit still raised")]
    [InlineData(TimelineEventKind.MachineShutDown, "engine would not stop")]
    [InlineData(TimelineEventKind.DriveDisengaged, "drive did not disengage")]
    public void BeforeWork_WordsThatDenyTheStep_ProveNothing(TimelineEventKind kind, string method) =>
        Assert.Equal(Verdict.Unproven, Before(kind, method).Verdict);

    [Theory]
    [InlineData(TimelineEventKind.SeenAtRest, "reel no longer turning")]
    [InlineData(TimelineEventKind.SeenAtRest, "nothing still moving, all seen at rest")]
    [InlineData(
        TimelineEventKind.SeenAtRest,
        "reel was turning until the drive stopped, watched it come to rest"
    )]
    [InlineData(TimelineEventKind.SeenAtRest, "all reels stand still")]
    [InlineData(TimelineEventKind.SeenAtRest, "no reel is turning")]
    [InlineData(TimelineEventKind.KeyRemoved, "key out of the switch, in my pocket")]
    [InlineData(TimelineEventKind.KeyRemoved, "key not left in the switch")]
    [InlineData(TimelineEventKind.KeyRemoved, "key in the lock box")]
    [InlineData(TimelineEventKind.IsolatorOperated, "turned off, engine would not turn over")]
    [InlineData(TimelineEventKind.IsolatorOperated, "off, not stuck")]
    [InlineData(TimelineEventKind.ParkingBrakeSet, "brake holds, machine did not roll")]
    [InlineData(
        TimelineEventKind.GlovesWorn,
        "cut-resistant gloves on, no gloves near the turning reel later"
    )]
    [InlineData(TimelineEventKind.GlovesWorn, "no bare hands")]
    [InlineData(TimelineEventKind.UnitsLowered, "units on the floor, none still raised")]
    [InlineData(TimelineEventKind.MachineShutDown, "engine stopped, nothing left running")]
    [InlineData(TimelineEventKind.DriveDisengaged, "lever back, drive out")]
    public void BeforeWork_HonestWords_ProveTheStep(TimelineEventKind kind, string method) =>
        Assert.Equal(Verdict.Met, Before(kind, method).Verdict);

    [Theory]
    [InlineData(TimelineEventKind.GuardsRefitted, "not refitted, customer in a hurry")]
    [InlineData(TimelineEventKind.GuardsRefitted, "left shield missing, ordered")]
    [InlineData(TimelineEventKind.PeopleClearChecked, "somebody still in the pit")]
    [InlineData(TimelineEventKind.PeopleClearChecked, "one still under the unit")]
    [InlineData(TimelineEventKind.PeopleClearChecked, "not everybody out")]
    [InlineData(TimelineEventKind.AreaInspected, "spanner left on the reel")]
    [InlineData(TimelineEventKind.AreaInspected, "no time")]
    public void AfterWork_WordsThatDenyTheStep_ProveNothing(TimelineEventKind kind, string method) =>
        Assert.Equal(Verdict.Unproven, After(kind, method).Verdict);

    [Theory]
    [InlineData(TimelineEventKind.GuardsRefitted, "all guards refitted, none missing")]
    [InlineData(TimelineEventKind.GuardsRefitted, "missing screw replaced, all back")]
    [InlineData(TimelineEventKind.GuardsRefitted, "no guard left off")]
    [InlineData(TimelineEventKind.PeopleClearChecked, "nobody left")]
    [InlineData(TimelineEventKind.PeopleClearChecked, "nobody still in the pit")]
    [InlineData(TimelineEventKind.PeopleClearChecked, "everybody left the pit, all clear")]
    [InlineData(TimelineEventKind.AreaInspected, "nothing left on the reel")]
    [InlineData(TimelineEventKind.AreaInspected, "tools counted, units left on the ground")]
    [InlineData(TimelineEventKind.AreaInspected, "no tools left in, none missing")]
    public void AfterWork_HonestWords_ProveTheStep(TimelineEventKind kind, string method) =>
        Assert.Equal(Verdict.Met, After(kind, method).Verdict);

    [Fact]
    public void PeopleClear_DeniedAndSeenAgain_Proves()
    {
        var denied = new SafetyCase()
            .With("09:00 work_started tech-01\n09:30 work_stopped tech-01")
            .And(
                "09:40 people_clear_checked tech-01",
                entry => entry with { Method = "one still under the unit" }
            );

        Assert.Equal(Verdict.Unproven, denied.Judge(People).Verdict);
        Assert.Contains(
            "`one still under the unit`",
            denied.Judge(People).Statement,
            StringComparison.Ordinal
        );
        Assert.Equal(Verdict.Met, denied.And("09:45 people_clear_checked tech-01").Judge(People).Verdict);
    }

    [Fact]
    public void PeopleClear_SeenAndDeniedAfter_ProvesNothing() =>
        Assert.Equal(
            Verdict.Unproven,
            new SafetyCase()
                .With(
                    "09:00 work_started tech-01\n09:30 work_stopped tech-01\n09:35 people_clear_checked tech-01"
                )
                .And(
                    "09:40 people_clear_checked tech-01",
                    entry => entry with { Method = "one still under the unit" }
                )
                .Judge(People)
                .Verdict
        );

    /// <summary>An isolator entered with words that deny it is not off, and nobody behind it is protected; a breach they do not show.</summary>
    [Theory]
    [InlineData("disconnect would not turn", null, Verdict.Unproven)]
    [InlineData("turned to off", null, Verdict.Met)]
    [InlineData("disconnect would not turn", "turned with the key", Verdict.Met)]
    [InlineData("turned to off", "still on", Verdict.Unproven)]
    public void Isolator_WordsThatDenyIt_ShowItNotOff(string first, string? then, Verdict expected)
    {
        var job = Isolated(first, then);
        var reading = TimelineReading.Of(job.Frame());
        var source = SourceReading.Of(reading, SafetyCase.RideOn.Sources[0]);
        var work = reading.FirstWork!.Interval.From;

        Assert.Equal(expected == Verdict.Met, source.Isolated.Contains(work));
        Assert.Equal(expected == Verdict.Met, source.Proven.Contains(work));
        Assert.Equal(
            expected == Verdict.Met,
            reading.Protection!.ProtectedFor(new("tech-01")).Contains(work)
        );
        foreach (
            var outcome in new[] { job.Judge(new Check.Protection()), job.Duty(EnergyDuty.SourcesIsolated) }
        )
        {
            Assert.Equal(expected, outcome.Verdict);
            Assert.Equal(
                expected == Verdict.Unproven,
                outcome.Statement.Contains($"of how it says `{then ?? first}`", StringComparison.Ordinal)
            );
        }
    }

    /// <summary>Beside what no entry tells at all, words take nothing from a breach.</summary>
    [Fact]
    public void Isolator_DeniedBesideALockThatNobodyHung_IsNotMet()
    {
        var job = Isolated("disconnect would not turn", null);

        Assert.Equal(
            Verdict.NotMet,
            (job with { Entries = [.. job.Entries.Where(entry => entry.Lock?.Text != "L-12")] })
                .Judge(new Check.Protection())
                .Verdict
        );
    }

    /// <summary>What was turned on again after such words is on.</summary>
    [Fact]
    public void Isolator_DeniedAndTurnedOn_IsNotMet() =>
        Assert.Equal(
            Verdict.NotMet,
            Isolated("disconnect would not turn", null)
                .And("08:07 isolator_operated tech-01 source=engine_start position=on")
                .Judge(new Check.Protection())
                .Verdict
        );

    [Fact]
    public void Isolator_DeniedOnAnOpenJob_IsAskedAgainBeforeHandsGoIn()
    {
        var job = Isolated("disconnect would not turn", null);
        var outcome = (
            job with
            {
                IsSignedOff = false,
                Entries =
                [
                    .. job.Entries.Where(entry => string.CompareOrdinal(entry.At.Text[11..16], "08:20") < 0),
                ],
            }
        ).Duty(EnergyDuty.SourcesIsolated);

        Assert.Equal((Verdict.Unproven, FindingReason.InProgress), (outcome.Verdict, outcome.Reason));
        Assert.Contains("would not turn", Assert.Single(outcome.StillToDo), StringComparison.Ordinal);
    }

    /// <summary>The same of a release and of a proof: neither is shown, on no lane, and no breach either.</summary>
    [Theory]
    [InlineData("stored_energy_released tech-01 source=hydraulic", "still charged", Verdict.Unproven)]
    [InlineData("stored_energy_released tech-01 source=hydraulic", "bled to nothing", Verdict.Met)]
    [InlineData("isolation_verified tech-01 source=all", "tried the key, engine fired", Verdict.Unproven)]
    [InlineData("isolation_verified tech-01 source=all", "tried the key, dead", Verdict.Met)]
    public void ReleaseOrProof_LastOneDenied_ProtectsNobody(string entry, string method, Verdict expected)
    {
        var job = MakeSafe.Complete.And($"08:18 {entry}", told => told with { Method = method });
        if (entry.StartsWith("stored", StringComparison.Ordinal))
        {
            job = job.And("08:19 isolation_verified tech-01 source=all");
        }

        var reading = TimelineReading.Of(job.Frame());
        var work = reading.FirstWork!.Interval.From;
        var source = SourceReading.Of(reading, SafetyCase.RideOn.Sources[1]);
        var outcome = job.Judge(new Check.Protection());

        Assert.Equal(expected == Verdict.Met, source.Proven.Contains(work));
        Assert.Equal(
            expected == Verdict.Met,
            reading.Protection!.ProtectedFor(new("tech-01")).Contains(work)
        );
        Assert.Equal(expected, outcome.Verdict);
        Assert.Equal(
            expected == Verdict.Unproven,
            outcome.Statement.Contains($"of how it says `{method}`", StringComparison.Ordinal)
        );
    }

    /// <summary>A proof that says the opposite, and came too early besides, is a breach as any that came too early.</summary>
    [Fact]
    public void Proof_DeniedAndUndoneSince_IsNotMet() =>
        Assert.Equal(
            Verdict.NotMet,
            MakeSafe
                .Complete.With(
                    MakeSafe.Seat
                        + MakeSafe.Isolation.Replace(
                            "08:17 isolation_verified tech-01 source=all",
                            string.Empty,
                            StringComparison.Ordinal
                        )
                        + MakeSafe.Work
                        + MakeSafe.After
                )
                .And(
                    "08:13 isolation_verified tech-01 source=all",
                    entry => entry with { Method = "engine fired" }
                )
                .And("08:15 lock_removed tech-01 source=hydraulic lock=L-12")
                .And("08:16 lock_applied tech-01 source=hydraulic lock=L-12 position=closed")
                .Judge(new Check.Protection())
                .Verdict
        );

    // The disconnect of the engine at 08:06, and once more at 08:07 before the locks.
    private static SafetyCase Isolated(string first, string? then)
    {
        var job = MakeSafe.Complete;
        var at = job
            .Entries.Select((entry, index) => (entry, index))
            .First(one => one.entry.Kind == TimelineEventKind.IsolatorOperated)
            .index;
        var changed = job with { Entries = job.Entries.SetItem(at, job.Entries[at] with { Method = first }) };
        return then is null
            ? changed
            : changed.And(
                "08:07 isolator_operated tech-01 source=engine_start",
                entry => entry with { Method = then }
            );
    }

    /// <summary>What comes after the work is done again before the machine goes out, and not before hands go in.</summary>
    [Theory]
    [InlineData(
        TimelineEventKind.GuardsRefitted,
        "left guard missing",
        "before the machine is started or handed back."
    )]
    [InlineData(
        TimelineEventKind.AreaInspected,
        "spanner left under the unit",
        "before the machine is started or handed back."
    )]
    [InlineData(
        TimelineEventKind.PeopleClearChecked,
        "one still under the unit",
        "before the machine is started or handed back."
    )]
    public void AfterWork_DeniedWords_SayWhenItIsDoneAgain(
        TimelineEventKind kind,
        string method,
        string due
    ) =>
        Assert.EndsWith(
            due,
            Assert.IsType<Remedy.Act>(After(kind, method).Remedy).What,
            StringComparison.Ordinal
        );

    [Fact]
    public void BeforeWork_DeniedWords_SayThatItIsDoneAgainBeforeHandsGoIn() =>
        Assert.EndsWith(
            "do it again before hands go in.",
            Assert.IsType<Remedy.Act>(Before(TimelineEventKind.SeenAtRest, "reel still turning").Remedy).What,
            StringComparison.Ordinal
        );

    private static CheckOutcome Before(TimelineEventKind kind, string method) =>
        new SafetyCase()
            .And($"08:30 {Word(kind)} tech-01", entry => entry with { Method = method })
            .And("09:00 work_started tech-01")
            .And("09:30 work_stopped tech-01")
            .Judge(FoundationChecks.Before(kind));

    private static CheckOutcome After(TimelineEventKind kind, string method) =>
        new SafetyCase()
            .With("09:00 work_started tech-01\n09:30 work_stopped tech-01")
            .And($"09:40 {Word(kind)} tech-01", entry => entry with { Method = method })
            .Judge(FoundationChecks.After(kind));

    private static string Word(TimelineEventKind kind) =>
        string.Concat(
            kind.ToString()
                .Select(
                    (letter, index) =>
                        char.IsUpper(letter)
                            ? (index == 0 ? "" : "_") + char.ToLowerInvariant(letter)
                            : letter.ToString()
                )
        );
}
