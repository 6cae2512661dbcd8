using ServiceRules.Application.Demo;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Application.Tests.Demo;

/// <summary>The whole product on two seasons: every seeded fault is found, and nothing else is held.</summary>
public sealed class DemoSummaryTests
{
    private static readonly DemoSummary Usual = DemoSummary.Of(DemoSeasons.Judged);

    [Fact]
    public void Of_UsualSeed_FindsEverySeededFault() => Assert.Equal([], Missed(Usual));

    [Fact]
    public void Of_UsualSeed_HoldsNothingElse() => Assert.Equal([], Unexpected(Usual));

    /// <summary>Neither the wear nor the readings of one seed are what makes it come out.</summary>
    [Fact]
    public void Of_AnotherSeed_IsExactToo()
    {
        var other = DemoSummary.Of(DemoSeasons.Judge(20_260_413));

        Assert.Equal([], Missed(other));
        Assert.Equal([], Unexpected(other));
    }

    [Fact]
    public void Of_UsualSeed_ReleasesWhatOnlyLooksOdd()
    {
        Assert.Equal(11, Usual.LeaveAlone.Length);
        Assert.All(
            Usual.LeaveAlone,
            odd => Assert.Equal(Disposition.Release, odd.Assessment.Job.Disposition)
        );
    }

    /// <summary>An honest late entry is told, a second person's release is told; a reel ground and taped at its ends alone may be barrelled: none holds, and nothing else is odd.</summary>
    [Fact]
    public void Of_UsualSeed_TellsOnlyTheLateEntryAndTheRelease()
    {
        var told = Usual
            .LeaveAlone.SelectMany(odd => odd.Assessment.Findings)
            .Where(finding => finding.Effect is not Effect.None && finding.Subject is not Subject.Programme)
            .ToList();

        Assert.All(told, finding => Assert.Equal(Effect.Advise, finding.Effect));
        Assert.Equal(
            [("entries-at-the-time", false), ("height-on-target", true), ("reel-barrel", false)],
            told.Select(finding => (finding.Rule, finding.LetOut is not null)).Order()
        );
    }

    /// <summary>Where someone could be hurt the job stops; everything else only holds.</summary>
    [Fact]
    public void Of_UsualSeed_StopsWhereHandsWereAtRisk() =>
        Assert.Equal(
            [
                SeededFaultKind.IsolationNotVerified,
                SeededFaultKind.GuardsNotRecorded,
                SeededFaultKind.NoLock,
                SeededFaultKind.LockTakenOffByAnother,
                SeededFaultKind.RecheckMissed,
                SeededFaultKind.BlockageClearedByHand,
                SeededFaultKind.DefectLeftOpen,
                SeededFaultKind.TrainingLapsed,
                SeededFaultKind.LockOffMidJob,
                SeededFaultKind.RunNotRelocked,
                SeededFaultKind.ShiftGap,
                SeededFaultKind.AdjusterTurnedInRun,
            ],
            Usual
                .Faults.Where(fault => fault.Judged.Assessment.Job.Disposition is Disposition.Stop)
                .Select(fault => fault.Fault.Kind)
                .Order()
        );

    [Fact]
    public void Of_Counts_AddUpToTheJobs() =>
        Assert.Equal(Usual.Jobs, Usual.Released + Usual.Held + Usual.Stopped);

    [Fact]
    public void Of_FaultThatNobodySeeded_IsUnexpected()
    {
        var faulty = Usual.Faults[0].Judged;
        var summary = DemoSummary.Of([faulty with { Job = faulty.Job with { Fault = null } }]);

        Assert.False(summary.IsExact);
        Assert.Equal(
            Usual.Faults[0].Fault.Expected.Select(expected => expected.Rule).Order(),
            summary.Unexpected.Select(item => item.Finding.Rule).Order()
        );
    }

    [Fact]
    public void Of_FaultThatTheJudgeDoesNotTell_IsMissed()
    {
        var faulty = Usual.Faults[0].Judged;
        var blind = faulty with { Assessment = faulty.Assessment with { Findings = [] } };

        var summary = DemoSummary.Of([blind]);

        Assert.False(summary.IsExact);
        Assert.Equal(
            Usual.Faults[0].Fault.Expected.AsEnumerable(),
            Assert.Single(summary.Faults).Missed.AsEnumerable()
        );
    }

    private static IEnumerable<string> Missed(DemoSummary summary) =>
        summary
            .Faults.Where(fault => !fault.IsFound)
            .Select(fault =>
                $"{fault.Judged.Job.Record.Id} {fault.Fault.Kind}: {string.Join(", ", fault.Missed.Select(missed => $"{missed.Rule} on {missed.Subject.Key}"))}"
            );

    private static IEnumerable<string> Unexpected(DemoSummary summary) =>
        summary.Unexpected.Select(item =>
            $"{item.Judged.Job.Record.Id} {item.Finding.Rule} on {item.Finding.Subject.Key}: {item.Finding.Statement}"
        );
}
