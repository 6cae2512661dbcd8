using FsCheck.Xunit;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Remedies;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Remedies;

public sealed class StepDownTests
{
    /// <summary>Outside values: turf/formulas.json, F13: 3.0 in to 1.25 in by 2.0, 1.33 and 1.25 in.</summary>
    [Fact]
    public void Heights_OfTheWorkedExample_AgreeWithIt()
    {
        var example = ReferenceCases
            .In("turf", "formulas.json", "formulas")
            .Named("F13")
            .GetProperty("worked_example");
        var given = example.GetProperty("inputs");
        var printed = example.GetProperty("result");

        var heights = StepDown.Heights(
            Length.FromInches(given.GetProperty("start_in").GetDecimal()),
            Length.FromInches(given.GetProperty("target_in").GetDecimal())
        );

        Assert.Equal(printed.GetProperty("steps").GetInt32(), heights.Length);
        Assert.Equal(
            printed.GetProperty("heights_in").EnumerateArray().Select(height => height.GetDecimal()),
            heights.Select(height => Math.Round(height.Millimetres / 25.4m, 2))
        );
    }

    [Fact]
    public void Heights_OnAGrid_AreRoundedUpAndReckonedFromThere()
    {
        // 0.200 in: two thirds are 0.1333, up to 0.14 (0.13 would take off 35 %); from there 0.10 takes off 29 %. Nearer to
        // the grid than it can be told, 0.02 in: two thirds, 0.01333, would be 0.02 again.
        var grid = Length.FromInches(0.01m);

        Assert.Equal([0.14m, 0.10m], Inches(0.200m, 0.10m));
        Assert.Equal([0.0133m, 0.01m], Inches(0.02m, 0.01m));

        decimal[] Inches(decimal start, decimal target) =>
            [
                .. StepDown
                    .Heights(Length.FromInches(start), Length.FromInches(target), grid)
                    .Select(height => Math.Round(height.Millimetres / 25.4m, 4)),
            ];
    }

    [Theory]
    [InlineData(6, 4, 1)]
    [InlineData(6, 3.9999, 2)]
    [InlineData(9, 4, 2)]
    [InlineData(4, 6, 1)]
    [InlineData(4, 4, 1)]
    public void Heights_AThirdExactly_IsOneCut(decimal start, decimal target, int cuts)
    {
        var heights = StepDown.Heights(Mm(start), Mm(target));

        Assert.Equal(cuts, heights.Length);
        Assert.Equal(Mm(target), heights[^1]);
    }

    [Fact]
    public void Heights_FromBeyondAnyGrass_EndAfterFiftyCutsAtTheTarget()
    {
        var heights = StepDown.Heights(Mm(1_000_000_000_000m), Mm(1m));

        Assert.Equal((51, Mm(1m)), (heights.Length, heights[^1]));
    }

    [Fact]
    public void Heights_OfNothing_AreRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => StepDown.Heights(Mm(0m), Mm(1m)));
        Assert.Throws<ArgumentOutOfRangeException>(() => StepDown.Heights(Mm(1m), Mm(0m)));
    }

    [Property(MaxTest = PropertyCases.Each)]
    public void Heights_AnyLowering_TakeOffAThirdAtMostEachTime(ushort start, ushort target)
    {
        var (from, to) = (Mm((start + 1) * 0.01m), Mm((target + 1) * 0.01m));
        var heights = StepDown.Heights(from, to);

        Assert.All(
            heights.Prepend(from).Zip(heights),
            pair => Assert.True((pair.First * 2) - (pair.Second * 3) <= Mm(0.00000000001m))
        );
        Assert.Equal(to, heights[^1]);
    }
}
