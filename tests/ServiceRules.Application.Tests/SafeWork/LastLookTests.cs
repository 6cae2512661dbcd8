using System.Text.Json.Nodes;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Application.Tests.SafeWork;

/// <summary>The last look speaks, and words of people kept out that say they were there deny it.</summary>
public sealed class LastLookTests
{
    [Theory]
    [InlineData("people_clear_checked", "09:22:30", "one still under the unit", "people-clear")]
    [InlineData("area_inspected", "09:21:30", "spanner left in the reel", "area-inspected")]
    [InlineData("people_clear_checked", "08:27:30", "one still under the unit", "test-people-clear")]
    public void Look_WhoseLastEntryDeniesIt_IsKept(string kind, string at, string words, string rule)
    {
        Assessment found = Looked(kind, at, words).Judge();

        Assert.NotEqual(Disposition.Release, found.Job.Disposition);
        Assert.Contains(
            found.Findings,
            one => one.Rule == rule && one.Verdict is Verdict.NotMet or Verdict.Unproven
        );
    }

    [Theory]
    [InlineData("people_clear_checked", "09:22:10", "one still under the unit")]
    [InlineData("people_clear_checked", "08:26:30", "one still under the unit")]
    public void Look_ThatALaterOneMakesGood_MayGoOut(string kind, string at, string words) =>
        Looked(kind, at, words).MayGoOut();

    [Fact]
    public void Look_DeniedAfterTheLastThatCounts_IsNotMadeGoodByOneThatDoesNot()
    {
        const string Untrained = """{ "id": "tech-09", "authorised": false }""";
        EditedJob Seen(string words) =>
            EditedJob
                .Of("lap")
                .Person("tech-09", "affected")
                .Registered("people", Untrained)
                .With("people_clear_checked", "08:27:20", "tech-09", $$"""{ "method": "{{words}}" }""")
                .With("people_clear_checked", "08:27:40", "tech-09")
                .InOrderOfTime();
        bool Stands(EditedJob job) =>
            job.Judge().Findings.Single(one => one.Rule == "test-people-clear").Verdict is Verdict.Met;

        Assert.False(Stands(Seen("one still under the unit")));
        Assert.True(Stands(Seen("walked round the machine")));
    }

    [Theory]
    [InlineData("somebody stood in the zone")]
    [InlineData("zone not roped off")]
    public void Zone_WhoseWordsSayPeopleWereThere_IsKept(string words) =>
        Zoned(words).IsKept(Disposition.Hold, "energised-measures-first", $"`{words}`");

    [Fact]
    public void Zone_RopedOffWithNobodyIn_MayGoOut() => Zoned("roped off, nobody in the zone").MayGoOut();

    private static EditedJob Looked(string kind, string at, string words) =>
        EditedJob.Of("lap").With(kind, at, "tech-01", $$"""{ "method": "{{words}}" }""").InOrderOfTime();

    private static EditedJob Zoned(string words) =>
        EditedJob
            .Of("lap")
            .Change(
                entry => entry["event"]!.GetValue<string>() == "alternative_measures_recorded",
                entry =>
                {
                    entry["measures"]!.AsArray().Add((JsonNode?)JsonValue.Create("exclusion-zone"));
                    entry["method"] = words;
                }
            );
}
