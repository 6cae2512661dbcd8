using ServiceRules.Application.RuleCases.Mutation;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Application.Tests.RuleCases.Mutation;

/// <summary>A limit moves by one unit of the last digit of each figure, and as a whole by about a quarter. Reckoned by hand.</summary>
public sealed class NudgeTests
{
    [Fact]
    public void Of_TwoFigures_MovesEachAloneAndBothTogether() =>
        Assert.Equal(
            [
                "0.003 in (0.10 mm)",
                "0.004 in (0.09 mm)",
                "0.005 in (0.10 mm)",
                "0.004 in (0.11 mm)",
                "0.002 in (0.08 mm)",
                "0.006 in (0.12 mm)",
            ],
            Moved("0.004 in", "0.10 mm")
        );

    [Fact]
    public void Of_Fraction_MovesByHalfTheStepOfItsDenominator() =>
        Assert.Equal(["0.03125 in", "0.09375 in", "0.125 in"], Moved("1/16 in"));

    [Fact]
    public void Of_OneLastDigitFromNothing_NeverBecomesNothingOrChangesSign() =>
        Assert.Equal(["0.002 in", "0.003 in"], Moved("0.001 in"));

    [Fact]
    public void Of_TrailingZeros_StayPrinted() =>
        Assert.Equal(["2.9 mm", "3.1 mm", "2.2 mm", "3.8 mm"], Moved("3.0 mm"));

    [Fact]
    public void Of_Ratio_MovesByATenthOfItsLastDigitAndAQuarter() =>
        Assert.Equal([0.9m, 1.1m, 0.75m, 1.25m], Nudge.Of(1m));

    private static IEnumerable<string> Moved(string governing, string? alternate = null) =>
        Nudge
            .Of(
                alternate is null
                    ? DualPrint.Of(Print(governing))
                    : Of(DualPrint.Of(Print(governing), Print(alternate)))
            )
            .Select(print => print.ToString());

    private static PrintedLength Print(string text) => Of(PrintedLength.Parse(text));

    private static T Of<T>(Parsed<T> parsed)
        where T : notnull
    {
        Assert.True(parsed.TryGet(out T? value, out _));
        return value!;
    }
}
