using ServiceRules.Domain.Records;
using ServiceRules.Rules.Checking;
using ServiceRules.Rules.Diagnostics;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Tests.Checking;

public sealed class TaskReachCheckTests
{
    private static readonly Rule OnAnyTask = SoundLibrary.Limit with { When = Applicability.Always };

    [Fact]
    public void Of_RuleForEveryTask_TellsNothing() => Assert.Empty(Told(OnAnyTask));

    [Fact]
    public void Of_RuleForOneTask_TellsTheOthersAtTheSheet()
    {
        var remark = Assert.Single(
            Told(OnAnyTask with { When = new() { Tasks = [ServiceTask.HeightCheck] } })
        );

        Assert.Equal(DiagnosticLevel.Notice, remark.Level);
        Assert.Equal("sheets/a.sheet.json", remark.File);
        Assert.Contains("`daily-check`", remark.What, StringComparison.Ordinal);
        Assert.Contains("`inspect`", remark.What, StringComparison.Ordinal);
        Assert.DoesNotContain("`height-check`", remark.What, StringComparison.Ordinal);
    }

    /// <summary>What depends on the job and not on kind and task alone may fail to apply.</summary>
    [Fact]
    public void Of_RuleThatAsksForMore_ReachesNothingForCertain()
    {
        Applicability[] asking =
        [
            new() { AnyTurned = [AdjusterKind.Clearance] },
            new() { AnyRead = [MeasuredQuantity.Clearance] },
            new() { AnyReadAlong = [MeasuredQuantity.Clearance] },
            new() { Ground = false },
            new() { Place = WorkPlace.OnMachine },
            new() { Areas = ["golf-greens"] },
            new() { Attachments = [Attachment.Groomer] },
            new() { School = Domain.Site.ContactSchool.AirGap },
            new() { From = new(2026, 1, 1) },
            new() { Until = new(2026, 12, 31) },
            new() { Bedknife = BedknifeMounting.Fixed },
            new() { SheetStates = MeasuredQuantity.LandWidth },
        ];

        Assert.All(asking, when => Assert.Single(Told(OnAnyTask with { When = when })));
    }

    /// <summary>A rule on the job says nothing of the unit.</summary>
    [Fact]
    public void Of_RuleOnTheJob_ReachesNoUnit() => Assert.Single(Told(SoundLibrary.Step));

    private static IEnumerable<Diagnostic> Told(Rule rule) =>
        PackCheck.Of(SoundLibrary.With(rule)).Where(remark => remark.Code == DiagnosticCode.TaskNotReached);
}
