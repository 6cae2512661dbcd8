using System.Text.Json.Nodes;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Application.Tests.SafeWork;

/// <summary>
/// Isolating, releasing and proving dead once more, after a run or a break: by whom is held against the register as the first time.
/// </summary>
public sealed class DoneAgainTests
{
    private const string By = "isolation-by-authorised";
    private const string All = """{ "source": "all" }""";
    private const string Lock = """{ "source": "engine_start", "lock": "L-21" }""";
    private const string Rehung = """{ "source": "engine_start", "lock": "L-21", "position": "off" }""";

    [Fact]
    public void Lapping_ProvenAgainByWhoeverDidTheWork_MayGoOut() => Lapped().MayGoOut();

    [Fact]
    public void Lapping_ProvenAgainByTheAffectedUser_Stops()
    {
        Assessment found = Again(Lapped(), "isolation_verified", "08:47:30").Judge();

        Assert.Equal(Disposition.Stop, found.Job.Disposition);
        Keeps(found, "relocked-after-test", "by somebody authorised (at 08:47:30 by tech-04");
        Keeps(found, "work-protected", "08:47:30: by tech-04");
        Keeps(found, By, "the isolation verified at 08:47:30 by tech-04");
    }

    [Fact]
    public void Lapping_ProvenAgainBySomebodyTheRegisterDoesNotHave_IsHeld()
    {
        Assessment found = Lapped()
            .Record(
                "people",
                JsonNode.Parse(
                    """[{ "id": "tech-01", "role": "performs" }, { "id": "tech-04", "role": "affected" }, { "id": "tech-77", "role": "leads" }]"""
                )
            )
            .Change(entry => Is(entry, "isolation_verified", "08:47:30"), entry => entry["by"] = "tech-77")
            .Judge();

        Keeps(found, "relocked-after-test", "at 08:47:30 by tech-77");
        Keeps(found, By, "tech-77");
    }

    [Theory]
    [InlineData("isolator_operated", "08:44:00", "by tech-04")]
    [InlineData("stored_energy_released", "08:45:30", "the stored energy released at 08:45:30 by tech-04")]
    public void Lapping_IsolatedOrReleasedAgainByTheAffectedUser_IsHeld(
        string kind,
        string at,
        string told
    ) => Keeps(Again(Lapped(), kind, at).Judge(), By, told);

    [Theory]
    [InlineData("ignition_key")]
    [InlineData("seat_switch")]
    public void Lapping_IsolatedAgainWithWhatIsolatesNothing_IsKept(string isolator)
    {
        Assessment found = Lapped()
            .Change(
                entry => Is(entry, "isolator_operated", "08:44:00"),
                entry => entry["isolator"] = isolator
            )
            .Judge();

        Assert.NotEqual(Disposition.Release, found.Job.Disposition);
        Keeps(found, "isolating-device", isolator);
    }

    [Theory]
    [InlineData("area_inspected", "08:26:00")]
    [InlineData("people_clear_checked", "08:27:00")]
    public void Lapping_OnlyTheUserLooksRoundBeforeIt_IsKept(string kind, string at)
    {
        Assessment found = Again(Lapped(), kind, at).Judge();

        Assert.NotEqual(Disposition.Release, found.Job.Disposition);
        Keeps(
            found,
            kind == "area_inspected" ? "test-area-clear" : "test-people-clear",
            "and by nobody else"
        );
    }

    [Fact]
    public void Lapping_TheUserLooksRoundAsWell_MayGoOut() =>
        Lapped()
            .With("area_inspected", "08:26:20", "tech-04")
            .With("people_clear_checked", "08:27:20", "tech-04")
            .InOrderOfTime()
            .MayGoOut();

    [Fact]
    public void Break_ProvenAgainByTheAffectedUser_Stops()
    {
        Assessment found = Broken("tech-04").Judge();

        Assert.Equal(Disposition.Stop, found.Job.Disposition);
        Keeps(found, "work-protected", "verified dead again by somebody authorised (08:26: by tech-04");
        Keeps(found, By, "the isolation verified at 08:26 by tech-04");
    }

    [Fact]
    public void Break_ProvenAgainByWhoeverDidTheWork_MayGoOut() => Broken("tech-02").MayGoOut();

    [Fact]
    public void Proof_TheUserTriesItTooBeforeWork_IsTold() =>
        Keeps(
            Unauthorised("height-check").With("isolation_verified", "08:09", "tech-04", All).Judge(),
            By,
            "the isolation verified at 08:09 by tech-04"
        );

    private static EditedJob Lapped() => Unauthorised("lap");

    private static EditedJob Broken(string by) =>
        Unauthorised("height-check")
            .With("work_stopped", "08:16", "tech-02")
            .With("lock_removed", "08:17", "tech-02", Lock)
            .With("lock_applied", "08:24", "tech-02", Rehung)
            .With("isolation_verified", "08:26", by, All)
            .With("work_started", "08:27", "tech-02");

    /// <summary>A job whose affected person is the machine's user and nothing else.</summary>
    private static EditedJob Unauthorised(string fixture) =>
        EditedJob
            .Of(fixture)
            .Person(
                "tech-04",
                person =>
                {
                    person["authorised"] = false;
                    person["instructedOn"] = "2026-01-12";
                }
            );

    private static EditedJob Again(EditedJob job, string kind, string at) =>
        job.Change(entry => Is(entry, kind, at), entry => entry["by"] = "tech-04");

    private static void Keeps(Assessment found, string rule, string statement) =>
        Assert.Contains(
            statement,
            Assert
                .Single(
                    found.Findings,
                    one => one.Rule == rule && one.Verdict is (Verdict.NotMet or Verdict.Unproven)
                )
                .Statement,
            StringComparison.Ordinal
        );

    private static bool Is(JsonObject entry, string kind, string at) =>
        entry["event"]!.GetValue<string>() == kind
        && entry["at"]!.GetValue<string>().Contains($"T{at}", StringComparison.Ordinal);
}
