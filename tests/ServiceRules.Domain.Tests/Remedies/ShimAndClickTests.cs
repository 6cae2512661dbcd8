using FsCheck.Xunit;
using ServiceRules.Domain.Remedies;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Remedies;

public sealed class ShimAndClickTests
{
    /// <summary>Outside values: turf/formulas.json, F18: 0.05 with steps of 0.018, two and three steps in.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    public void GapLeft_TheWorkedExample_AgreesWithIt(int index)
    {
        var example = ReferenceCases
            .In("turf", "formulas.json", "formulas")
            .Named("F18")
            .GetProperty("worked_example");
        var given = example.GetProperty("inputs");

        var gap = ShimAndClick.GapLeft(
            Millimetres(given.GetProperty("shim_thickness"))!.Value,
            given.GetProperty("clicks_in")[index].GetInt32(),
            Millimetres(given.GetProperty("step"))!.Value
        );

        Assert.Equal(Millimetres(example.GetProperty("result").GetProperty("gap_mm")[index]), gap);
    }

    [Theory]
    [InlineData(0.05, 0.018, 3)]
    [InlineData(0.054, 0.018, 3)]
    [InlineData(0.0540001, 0.018, 4)]
    [InlineData(0, 0.018, 0)]
    public void StepsToTouch_CountsUntilNoGapIsLeft(decimal shim, decimal step, int steps) =>
        Assert.Equal(steps, ShimAndClick.StepsToTouch(Mm(shim), Mm(step)));

    [Fact]
    public void StepsToTouch_WithoutAStep_IsRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => ShimAndClick.StepsToTouch(Mm(0.05m), Mm(0m)));
        Assert.Throws<ArgumentOutOfRangeException>(() => ShimAndClick.StepsToTouch(Mm(-0.01m), Mm(0.01m)));
    }

    [Property(MaxTest = PropertyCases.Each)]
    public void StepsToTouch_AnyShim_LeavesAsLittleAsOneStep(ushort shim, byte step)
    {
        var (thickness, one) = (Mm(shim * 0.0001m), Mm((step + 1) * 0.0001m));
        var left = ShimAndClick.GapLeft(thickness, ShimAndClick.StepsToTouch(thickness, one), one);

        Assert.InRange(left.Millimetres, -one.Millimetres + 0.00000001m, 0);
    }
}
