using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Application.Tests.SafeWork;

/// <summary>Bench entries that name somebody and no time: what needs no time is asked of them all the same.</summary>
public sealed class HandsWithoutTimeTests
{
    private const string Turn =
        """{ "turn": "height", "side": "left", "direction": "lower", "distance": "0.10 mm", """;
    private const string Part = """{ "fit": "seal", """;
    private const string Measured =
        """{ "read": "height-of-cut", "station": "left", "value": "3.80 mm", "with": "HG-01", """;

    [Fact]
    public void Reading_BySomebodyAtWork_MayGoOut() => With(Measured, "tech-02").MayGoOut();

    [Theory]
    [InlineData(Turn)]
    [InlineData(Part)]
    [InlineData(Measured)]
    public void Hands_OfSomebodyNotAuthorised_AreABreach(string entry)
    {
        var job = With(entry, "P1").Registered("people", """{ "id": "P1", "authorised": false }""");

        Found(job, "people-authorised", Verdict.NotMet, "P1 works on this job and is not authorised");
        Found(job, "own-device-through-work", Verdict.NotMet, "by P1, and not when. At no time does it show");
    }

    [Fact]
    public void Hands_OfSomebodyWithoutALock_AreABreachThoughAuthorised() =>
        Found(
            With(Part, "tech-04"),
            "own-device-through-work",
            Verdict.NotMet,
            "own lock or control of tech-04"
        );

    [Fact]
    public void Hands_OfSomebodyTheRegisterDoesNotHave_AreToldAsUnknown() =>
        Found(With(Part, "P2"), "people-authorised", Verdict.Unproven, "does not have P2");

    [Fact]
    public void Hands_OnAnOpenJobWithOthersAtWork_AreABreach() =>
        Found(
            With(Part, "tech-04")
                .Without("work_stopped", "lock_removed", "machine_started", "handed_back")
                .Open(),
            "own-device-through-work",
            Verdict.NotMet,
            "own lock or control of tech-04"
        );

    [Fact]
    public void Look_OfSomebodyElse_TakesNoHands() =>
        With("""{ "read": "guards", "condition": "sound", """, "tech-04").MayGoOut();

    private static void Found(EditedJob job, string rule, Verdict verdict, string words)
    {
        var found = job.Judge();
        Assert.NotEqual(Disposition.Release, found.Job.Disposition);
        Assert.Contains(
            found.Findings.Where(one => one.Rule == rule && one.Verdict == verdict),
            one =>
                one.Notices.Append(one.Statement).Any(text => text.Contains(words, StringComparison.Ordinal))
        );
    }

    private static EditedJob With(string entry, string by) =>
        EditedJob
            .Of("height-check")
            .Person("P1", "leads")
            .Person("P2", "leads")
            .Unit(0, $$"""{{entry}} "by": "{{by}}" }""");
}
