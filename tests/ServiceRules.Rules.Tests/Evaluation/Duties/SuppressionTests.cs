using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;
using ServiceRules.Rules.Tests.Evaluation.Timeline;
using static ServiceRules.Rules.Tests.Evaluation.Duties.Registers;

namespace ServiceRules.Rules.Tests.Evaluation.Duties;

public sealed class SuppressionTests
{
    private static readonly SafetyCase Undevised = InOrder
        .Without(TimelineEventKind.LockApplied)
        .Without(TimelineEventKind.LockRemoved);

    [Theory]
    [InlineData(EnergyDuty.AffectedTold)]
    [InlineData(EnergyDuty.AffectedToldAfter)]
    [InlineData(EnergyDuty.AreaInspected)]
    [InlineData(EnergyDuty.PeopleClear)]
    [InlineData(EnergyDuty.ToldBeforeStart)]
    public void Of_NoDeviceEver_SaysNothingOfNoticesAndRemoval(EnergyDuty duty)
    {
        Assert.NotNull(Of(Undevised, duty));
        Assert.Null(Of(InOrder, duty));
    }

    /// <summary>Somebody may still hang it: until hands are in, what comes before them is asked for.</summary>
    [Fact]
    public void Of_NoDeviceYet_AsksForWhatComesFirst() =>
        Assert.Null(Of(Undevised with { IsSignedOff = false, Entries = [] }, EnergyDuty.AffectedTold));

    [Fact]
    public void Of_PlugKept_IsADeviceOfItsKind() =>
        Assert.Null(Of(Undevised.And("08:08 plug_control_confirmed tech-01"), EnergyDuty.PeopleClear));

    [Theory]
    [InlineData("09:39", true)]
    [InlineData("09:40", false)]
    public void Of_TwoPeople_AreAGroupWhereTheirWorkOverlaps(string start, bool isGroup)
    {
        var job = InOrder with
        {
            Entries =
            [
                .. InOrder.Entries,
                .. InOrder.With($"{start} work_started tech-02\n09:41 work_stopped tech-02").Entries,
            ],
        };

        Assert.Equal(isGroup, Of(job, EnergyDuty.PrimaryNamed) is null);
    }

    [Fact]
    public void Of_OpenJobOfTwo_IsAGroupBeforeItBegins()
    {
        var job = InOrder with
        {
            IsSignedOff = false,
            Entries = [],
            People = [SafetyCase.Person("tech-01"), SafetyCase.Person("tech-02")],
        };

        Assert.Null(Of(job, EnergyDuty.PrimaryNamed));
        Assert.NotNull(Of(job with { People = [SafetyCase.Person("tech-01")] }, EnergyDuty.PrimaryNamed));
    }

    // Said by the suppression itself; a duty that finds nothing to judge says so in other words.
    private static string? Of(SafetyCase job, EnergyDuty duty) =>
        job.Judge(duty) is { Verdict: Verdict.NotApplicable, Statement: var why }
        && (
            why.StartsWith("The record shows no lock or tag at all", StringComparison.Ordinal)
            || why.StartsWith("The record shows no two people", StringComparison.Ordinal)
        )
            ? why
            : null;
}
