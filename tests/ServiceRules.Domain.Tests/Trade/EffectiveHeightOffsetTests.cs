using FsCheck.Xunit;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Trade;

namespace ServiceRules.Domain.Tests.Trade;

[Properties(MaxTest = PropertyCases.Each)]
public sealed class EffectiveHeightOffsetTests
{
    [Fact]
    public void Offset_F10_IsAsPrintedForEachPublishedPair()
    {
        var formula = TradeFormula.Named("F10");
        var pairs = formula
            .GivenRaw("published_pairs_in")
            .EnumerateArray()
            .Select(pair => new HeightPair(Inches(pair[0].GetDecimal()), Inches(pair[1].GetDecimal())))
            .ToList();

        formula.Print("offset_in", pairs.Select(pair => pair.Offset.Millimetres / 25.4m));
        formula.Print("offset_mm", pairs.Select(pair => pair.Offset.Millimetres));
        formula.Print(
            "offset_pct",
            pairs.Select(pair => 100m * pair.Offset.Millimetres / pair.Bench.Millimetres)
        );
    }

    [Fact]
    public void Learn_PublishedPairs_TakesTheMiddleOneAndTellsTheBenchHeight()
    {
        var offset = EffectiveHeightOffset.Learn([
            Pair(0.120m, 0.105m),
            Pair(0.120m, 0.108m),
            Pair(0.150m, 0.100m),
        ])!;

        Assert.Equal(Inches(-0.015m), offset.Median);
        Assert.Equal((Inches(-0.050m), Inches(-0.012m), 3), (offset.Least, offset.Greatest, offset.Pairs));
        Assert.Equal(Inches(0.135m), offset.BenchFor(Inches(0.120m)));
    }

    // One article reported a machine that cut 1/16 in higher than another at the same bench height (S07).
    [Fact]
    public void Learn_TurfHigherThanTheBench_IsPositive() =>
        Assert.Equal(
            Inches(0.0625m),
            EffectiveHeightOffset
                .Learn([Pair(0.25m, 0.3125m), Pair(0.25m, 0.3125m), Pair(0.25m, 0.3125m)])!
                .Median
        );

    [Fact]
    public void Learn_FourPairs_TakesTheMeanOfTheMiddleTwo() =>
        Assert.Equal(
            Inches(-0.02m),
            EffectiveHeightOffset
                .Learn([Pair(0.2m, 0.1m), Pair(0.2m, 0.17m), Pair(0.2m, 0.19m), Pair(0.2m, 0.2m)])!
                .Median
        );

    [Fact]
    public void Learn_TwoPairs_PredictsNothing() =>
        Assert.Null(EffectiveHeightOffset.Learn([Pair(0.12m, 0.11m), Pair(0.12m, 0.11m)]));

    [Fact]
    public void IsBelowPrism_AtTheFigureOfTheSource_AlreadyHolds()
    {
        Assert.True(Pair(0.13m, 0.120m).IsBelowPrism);
        Assert.False(Pair(0.13m, 0.1201m).IsBelowPrism);
    }

    [Property]
    public void Learn_AnyOrder_IsTheSameOffsetWithinThePairs(short[] offsets)
    {
        var pairs = offsets
            .Concat<short>([1, 2, 3])
            .Select(each => Pair(0.2m, 0.2m + (each / 1_000_000m)))
            .ToList();

        var forward = EffectiveHeightOffset.Learn(pairs)!;
        var backward = EffectiveHeightOffset.Learn(Enumerable.Reverse(pairs))!;

        Assert.Equal(forward, backward);
        Assert.True(forward.Least <= forward.Median && forward.Median <= forward.Greatest);
        Assert.Equal(Inches(0.2m), forward.BenchFor(Inches(0.2m) + forward.Median));
    }

    private static HeightPair Pair(decimal bench, decimal effective) => new(Inches(bench), Inches(effective));

    private static Length Inches(decimal inches) => Length.FromInches(inches);
}
