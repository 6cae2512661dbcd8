using ServiceRules.Domain.Remedies;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Remedies;

public sealed class StepFloorTests
{
    /// <summary>Outside values: turf/formulas.json, F17.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    public void Of_AStep_AgreesWithTheWorkedExample(int index)
    {
        var example = ReferenceCases
            .In("turf", "formulas.json", "formulas")
            .Named("F17")
            .GetProperty("worked_example");
        var printed = example.GetProperty("result");

        var floor = StepFloor.Of(
            Millimetres(example.GetProperty("inputs").GetProperty("step")[index])!.Value
        );

        Assert.Equal(Millimetres(printed.GetProperty("floor_each_side_mm")[index]), floor.EachSide);
        Assert.Equal(Millimetres(printed.GetProperty("parallel_floor_mm")[index]), floor.OutOfParallel);
    }

    [Fact]
    public void Of_NoStep_IsRefused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => StepFloor.Of(Mm(0m)));
}
