using System.Text.Json.Nodes;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Application.Tests.SafeWork;

/// <summary>A lock cut off by the exception: what its steps say of themselves, and who made them.</summary>
public sealed class OwnerAwayTests
{
    [Fact]
    public void Exception_FollowedInFull_MayGoOut() => CutOff().MayGoOut();

    [Fact]
    public void Exception_WithAnHonestNo_MayGoOutAndShowsTheWords()
    {
        var job = CutOff(absence: "gone home, not in the shop", contact: "rang twice, no answer");

        job.MayGoOut();
        Assert.Contains(
            Notices(job, "owner-sought"),
            notice =>
                notice.Contains("`rang twice, no answer`: a person has to read", StringComparison.Ordinal)
        );
        Assert.Contains(
            Notices(job, "owner-absent"),
            notice => notice.Contains("`gone home, not in the shop`", StringComparison.Ordinal)
        );
    }

    [Theory]
    [InlineData("was in the shop all along")]
    [InlineData("he is still on site")]
    [InlineData("did not look")]
    public void Absence_ThatItsWordsDeny_IsNotShown(string words)
    {
        var job = CutOff(absence: words);

        job.IsKept(Disposition.Stop, "owner-absent", $"of how it says `{words}`");
        job.IsKept(Disposition.Stop, "device-off-by-owner", "needs the absence of tech-02 confirmed before");
    }

    [Theory]
    [InlineData("did not ring")]
    [InlineData("nobody rang him")]
    [InlineData("no time to call")]
    public void Attempt_ThatItsWordsDeny_IsNotShown(string words) =>
        CutOff(contact: words).IsKept(Disposition.Stop, "owner-sought", $"of how it says `{words}`");

    [Theory]
    [InlineData("told him by phone", Verdict.Met)]
    [InlineData("not told", Verdict.NotMet)]
    [InlineData("nobody told him", Verdict.NotMet)]
    public void Telling_ThatItsWordsDeny_IsNotShown(string words, Verdict expected)
    {
        var job = CutOff()
            .With(
                "owner_informed",
                "09:20",
                "tech-04",
                $$"""{ "others": ["tech-02"], "method": "{{words}}" }"""
            )
            .With("resumed_work", "09:30", "tech-02");

        Assert.Equal(expected, job.Judge().Findings.Single(one => one.Rule == "owner-told").Verdict);
    }

    [Theory]
    [InlineData("absence_confirmed", "owner-absent")]
    [InlineData("contact_attempted", "owner-sought")]
    public void Step_BySomebodyNotAuthorised_IsABreach(string kind, string rule) =>
        CutOff()
            .Person("P1", "leads")
            .Registered("people", """{ "id": "P1", "authorised": false }""")
            .Change(entry => (string?)entry["event"] == kind, entry => entry["by"] = "P1")
            .IsKept(Disposition.Stop, rule, "by P1, whom the register does not show as authorised");

    [Fact]
    public void Step_ByWhoeverMayRelease_MayGoOut() =>
        CutOff()
            .Person("P2", "leads")
            .Registered("people", """{ "id": "P2", "authorised": false, "mayRelease": true }""")
            .Change(entry => (string?)entry["event"] == "absence_confirmed", entry => entry["by"] = "P2")
            .MayGoOut();

    [Fact]
    public void Step_BySomebodyTheRegisterDoesNotHave_IsHeld() =>
        CutOff()
            .Person("P3", "leads")
            .Change(entry => (string?)entry["event"] == "absence_confirmed", entry => entry["by"] = "P3")
            .IsKept(Disposition.Hold, "owner-absent", "by P3, whom the register of people does not have");

    private static IEnumerable<string> Notices(EditedJob job, string rule) =>
        job.Judge().Findings.Where(one => one.Rule == rule).SelectMany(one => one.Notices);

    // tech-02 locked and worked, and went; tech-04 takes the lock off and hands back.
    private static EditedJob CutOff(string? absence = null, string? contact = null)
    {
        string[] after =
        [
            "lock_removed",
            "isolator_operated",
            "machine_started",
            "cut_outs_proved",
            "handed_back",
        ];
        return EditedJob
            .Of("height-check")
            .Without("affected_notified_before", "removal_notified")
            .Record(
                "people",
                JsonNode.Parse(
                    """[{ "id": "tech-02", "role": "performs" }, { "id": "tech-04", "role": "leads" }]"""
                )
            )
            .Change(
                entry =>
                    after.Contains((string?)entry["event"])
                    && string.CompareOrdinal((string?)entry["at"], "2026-04-13T08:33") >= 0,
                entry => entry["by"] = "tech-04"
            )
            .Change(entry => (string?)entry["event"] == "lock_removed", entry => entry["exception"] = "P-90")
            .With("absence_confirmed", "08:32:30", "tech-04", Words(absence))
            .With("contact_attempted", "08:32:40", "tech-04", Words(contact))
            .Record("signOff", JsonNode.Parse("""{ "by": "tech-04", "at": "2026-04-13T08:40:00+01:00" }"""))
            .Register("removalException", """{ "id": "P-90", "trained": ["tech-04"] }""");
    }

    private static string Words(string? words) =>
        words is null
            ? """{ "others": ["tech-02"] }"""
            : $$"""{ "others": ["tech-02"], "method": "{{words}}" }""";
}
