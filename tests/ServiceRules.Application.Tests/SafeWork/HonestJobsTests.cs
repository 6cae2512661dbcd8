using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Application.Tests.SafeWork;

/// <summary>Right practice that is written down plainly may go out; its hostile twin may not.</summary>
public sealed class HonestJobsTests
{
    private const string Lead = """{ "others": ["tech-01"], "count": 2 }""";

    [Fact]
    public void Lead_NamedWhenASecondJoins_MayGoOut() => JoinedAt("08:20", named: "08:19").MayGoOut();

    [Fact]
    public void Lead_NamedAtTheVeryJoining_MayGoOut() => JoinedAt("08:20", named: "08:20").MayGoOut();

    [Fact]
    public void Lead_NamedAfterASecondJoined_Holds() =>
        JoinedAt("08:20", named: "08:21")
            .IsKept(Disposition.Hold, "primary-named", "only at 08:21, after tech-05 joined at 08:20");

    [Fact]
    public void Lead_NamedAfterASecondWasThereBefore_Holds() =>
        JoinedAt("08:20", named: "08:19")
            .With("work_started", "08:12", "tech-05")
            .With("work_stopped", "08:13", "tech-05")
            .IsKept(Disposition.Hold, "primary-named", "after tech-05 joined at 08:12");

    [Fact]
    public void Lead_NamedAfterTheBenchLogShowsASecond_Holds() =>
        JoinedAt("08:20", named: "08:19")
            .Unit(
                0,
                """{ "turn": "height", "side": "left", "direction": "lower", "distance": "0.10 mm", "by": "tech-05", "at": "2026-04-13T08:15:00+01:00" }"""
            )
            .IsKept(Disposition.Hold, "primary-named", "only at 08:19, after work started at 08:10");

    [Fact]
    public void Proof_InTheMinuteOfTheStart_EnteredFirst_MayGoOutAndIsTold()
    {
        var job = EditedJob.Of("height-check").ToTheMinute().Move("isolation_verified", "08:10");

        job.MayGoOut();
        Assert.Contains(
            job.Judge().Findings.Single(one => one.Rule == "isolation-verified").Notices,
            notice => notice.Contains("by the order of the entries alone", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Proof_InTheMinuteOfTheStart_EnteredAfterIt_IsHeld() =>
        EditedJob
            .Of("height-check")
            .ToTheMinute()
            .Without("isolation_verified")
            .With("isolation_verified", "08:10", "tech-02", """{ "source": "all" }""")
            .IsKept(Disposition.Hold, "isolation-verified", "which came first it cannot tell");

    [Fact]
    public void Proof_AtTheVerySecondOfTheStart_Stops() =>
        EditedJob
            .Of("height-check")
            .Move("work_started", "08:10:20")
            .Move("isolation_verified", "08:10:20")
            .IsKept(Disposition.Stop, "isolation-verified", "isolation verified");

    private static EditedJob JoinedAt(string time, string named) =>
        EditedJob
            .Of("height-check-by-two")
            .Without("primary_assigned")
            .With("primary_assigned", named, "tech-01", Lead)
            .Move("work_started", time, "tech-05");
}
