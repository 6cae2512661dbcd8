using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Application.Tests.SafeWork;

/// <summary>Somebody who has left: what they did until then stays as it was, and from then on they are authorised for nothing.</summary>
public sealed class LeaverTests
{
    [Theory]
    [InlineData("2026-04-13")]
    [InlineData("2026-05-31")]
    public void Job_UntilTheDayOnWhichTheyLeft_StaysAsItWas(string left) => Left(left).MayGoOut();

    [Fact]
    public void Job_AfterTheyLeft_IsNotTheirs() =>
        Left("2026-04-12").IsKept(Disposition.Stop, "people-authorised", "left on 2026-04-12");

    [Fact]
    public void Register_WithLeavers_IsReadAndWrittenAlike() =>
        Assert.Equal(
            new DateOnly(2026, 5, 31),
            Assert.Single(Left("2026-05-31").Context().People, one => one.Id.Text == "tech-02").Left
        );

    [Theory]
    [InlineData("area_inspected", "area-inspected", Disposition.Hold)]
    [InlineData("people_clear_checked", "people-clear", Disposition.Stop)]
    public void LookBeforeRelease_ByTheUserOfTheMachine_IsNotShown(
        string kind,
        string rule,
        Disposition disposition
    ) =>
        By("tech-04", kind)
            .Person("tech-04", person => person["authorised"] = false)
            .IsKept(disposition, rule, "by tech-04, whom the register does not show as authorised");

    [Theory]
    [InlineData("area_inspected")]
    [InlineData("people_clear_checked")]
    public void LookBeforeRelease_BySomebodyAuthorised_MayGoOut(string kind) =>
        By("tech-04", kind).MayGoOut();

    private static EditedJob Left(string day) =>
        EditedJob.Of("height-check").Person("tech-02", person => person["left"] = day);

    private static EditedJob By(string person, string kind) =>
        EditedJob
            .Of("height-check")
            .Change(entry => entry["event"]!.GetValue<string>() == kind, entry => entry["by"] = person);
}
