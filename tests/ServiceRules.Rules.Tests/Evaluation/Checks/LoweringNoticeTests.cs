using ServiceRules.Domain.Records;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation.Checks;

/// <summary>Target 4.00 mm: from 6.00 mm on it is a third or less.</summary>
public class LoweringNoticeTests
{
    private static readonly Check OnTarget = new Check.LimitOnQuantity(
        MeasuredQuantity.HeightOfCut,
        LimitSource.SettingOrder,
        CheckedPlaces.StationsAndEnds
    );

    private static CheckOutcome At(ServiceTask task, params BenchEntry[] entries) =>
        Judge(OnTarget, FrameBuilder.Build(Record(Unit(entries)) with { Tasks = [task] }, Context, Book()));

    private static CheckOutcome Changed(params BenchEntry[] entries) => At(ServiceTask.HeightChange, entries);

    /// <summary>At a check the turf stands at the height of the other units: nothing of it is scalped.</summary>
    [Theory]
    [InlineData(ServiceTask.HeightCheck)]
    [InlineData(ServiceTask.FullService)]
    public void Evaluate_HeightThatIsNotThereToBeChanged_SaysNothing(ServiceTask task) =>
        Assert.DoesNotContain(
            At(task, Height("left", "9.10 mm"), Height("right", "9.10 mm")).Notices,
            notice => notice.Contains("third", StringComparison.Ordinal)
        );

    [Fact]
    public void Evaluate_HeightLoweredByMoreThanAThird_TellsTheHeightsBetween()
    {
        var outcome = Changed(
            Height("left", "8.98 mm"),
            Height("right", "9.00 mm"),
            Moved(AdjusterKind.Height),
            Height("left", "4.00 mm"),
            Height("right", "4.00 mm")
        );

        Assert.Equal(
            "found at 9.00 mm: down to 4.00 mm takes off more than a third at once; cut at 6.00 mm and 4.00 mm, a third at "
                + "most each time (derived)",
            Assert.Single(outcome.Notices)
        );
    }

    [Fact]
    public void Evaluate_HeightsThatAreRounded_NeverSayACutOfMoreThanAThird()
    {
        // 9.10·2/3 = 6.0667, up to 6.1; 6.0 would leave 9.10 by 34 %. From 6.1 two thirds are 4.0667, above the target 4.00: one
        // more, 4.1. The target is said as it is.
        var outcome = Changed(Height("left", "9.10 mm"), Height("right", "9.10 mm"));

        Assert.Contains(
            outcome.Notices,
            notice => notice.Contains("cut at 6.10 mm, 4.10 mm and 4.00 mm", StringComparison.Ordinal)
        );
    }

    [Theory]
    [InlineData("6.00 mm")]
    [InlineData("3.00 mm")]
    public void Evaluate_HeightLoweredByAThirdOrRaised_SaysNothing(string found) =>
        Assert.DoesNotContain(
            Changed(Height("left", found), Height("right", found)).Notices,
            notice => notice.Contains("third", StringComparison.Ordinal)
        );
}
