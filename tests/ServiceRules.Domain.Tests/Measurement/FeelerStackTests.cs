using System.Text.Json;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Measurement;

/// <summary>Outside values: metrology/feeler-gauges.json, what a maker says and the cases computed there.</summary>
public sealed class FeelerStackTests
{
    private static readonly IReadOnlyList<JsonElement> Computed = ReferenceCases.In(
        "metrology",
        "feeler-gauges.json",
        "computed_cases"
    );

    private static readonly IReadOnlyList<JsonElement> Facts = ReferenceCases.In(
        "metrology",
        "feeler-gauges.json",
        "facts"
    );

    private static Length Inches(JsonElement value) => Length.FromInches(Exact(value)!.Value);

    /// <summary>Ten feelers of 0.010 in ± 0.00035 in: 0.1035 in at worst.</summary>
    [Fact]
    public void Tolerance_OfTenInTheWorstCase_IsWhatTheMakerSays()
    {
        var one = Facts[0];
        var stack = Facts[1];
        var thick = Inches(one.GetProperty("nominal_in")) * 10;
        var tolerance = FeelerStack.Tolerance(
            Inches(one.GetProperty("tolerance_in")),
            10,
            StackRule.WorstCase
        );

        Assert.Equal(Inches(stack.GetProperty("nominal_in")), thick);
        Assert.Equal(Inches(stack.GetProperty("worst_case_in")), thick + tolerance);
        Assert.Equal(
            Inches(Computed.Named("stack-of-ten-correlated").GetProperty("worst_case_in")),
            tolerance
        );
    }

    [Fact]
    public void Tolerance_OfThree_AddsUpOrTakesTheRootAsNamed()
    {
        var given = Computed.Named("stack-of-three-rss");
        var each = Millimetres(given.GetProperty("a_mm"))!.Value;

        Assert.Equal(
            Millimetres(given.GetProperty("worst_case_mm"))!.Value,
            FeelerStack.Tolerance(each, 3, StackRule.WorstCase)
        );
        // √3 · 0.00889 = 0.0153979316..., rounded up to 1e-7.
        Assert.Equal(Mm(0.0153980m), FeelerStack.Tolerance(each, 3, StackRule.RootSum));
    }

    /// <summary>Each rectangular: of three the standard uncertainty is a/√3 times √3.</summary>
    [Fact]
    public void Combined_OfThreeIndependentFeelers_IsTheReferenceValue()
    {
        var given = Computed.Named("stack-of-three-rss");
        var one = UncertaintyContribution.WithinHalfWidth(
            UncertaintySource.Scale,
            Millimetres(given.GetProperty("a_mm"))!.Value
        );

        Assert.Equal(
            Exact(given.GetProperty("u_stack_mm"))!.Value,
            UncertaintyBudget.Of(one, one, one).Combined.Value.Millimetres
        );
        Near(
            Exact(given.GetProperty("u_single_mm"))!.Value,
            UncertaintyBudget.Of(one).Combined.Value.Millimetres,
            StandardUncertainty.Quantum.Millimetres
        );
    }

    [Theory]
    [InlineData(StackRule.WorstCase)]
    [InlineData(StackRule.RootSum)]
    public void Tolerance_OfOneFeeler_IsItsOwn(StackRule rule) =>
        Assert.Equal(Mm(0.00888888889m), FeelerStack.Tolerance(Mm(0.00888888889m), 1, rule));

    [Fact]
    public void Tolerance_OfNoneOrBelowNothing_IsRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            FeelerStack.Tolerance(Mm(0.001m), 0, StackRule.WorstCase)
        );
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            FeelerStack.Tolerance(Mm(-0.001m), 1, StackRule.WorstCase)
        );
    }

    /// <summary>The largest that enters and the smallest that does not: no value between them can be told apart.</summary>
    [Fact]
    public void Meet_APairOfFeelers_IsAnIntervalAndNoPoint()
    {
        var given = Computed.Named("interval-reading");
        var (enters, stops) = (
            Millimetres(given.GetProperty("t1_mm"))!.Value,
            Millimetres(given.GetProperty("t2_mm"))!.Value
        );

        var met = Assert.IsType<IntervalMeeting.Overlap>(
            LengthInterval
                .FeelerPasses(enters, Length.Zero)
                .Meet(LengthInterval.FeelerDoesNotPass(stops, Length.Zero))
        );

        Assert.Equal(stops - enters, met.Interval.Width);
        Assert.True(met.Interval.Contains(Millimetres(given.GetProperty("estimate_mm"))!.Value));
    }
}
