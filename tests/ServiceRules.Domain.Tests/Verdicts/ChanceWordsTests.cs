using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Domain.Tests.Verdicts;

public sealed class ChanceWordsTests
{
    [Theory]
    [InlineData(0.021, "2.1 %")]
    [InlineData(0.001, "0.1 %")]
    [InlineData(0.0009, "< 0.1 %")]
    [InlineData(0, "< 0.1 %")]
    [InlineData(0.999, "99.9 %")]
    [InlineData(0.9991, "> 99.9 %")]
    [InlineData(1, "> 99.9 %")]
    [InlineData(0.5, "50.0 %")]
    public void Of_AnyChance_IsNeverCertain(decimal chance, string expected) =>
        Assert.Equal(expected, ChanceWords.Of(Probability.Of(chance)));

    [Theory]
    [InlineData(Verdict.Met, "chance that it is in fact out: 2.1 %")]
    [InlineData(Verdict.NotMet, "chance that it is in fact in: 97.9 %")]
    [InlineData(Verdict.Unproven, "chance that it is in: 97.9 %")]
    public void Risk_OfAVerdict_SaysWhatItWouldBeWrongAbout(Verdict verdict, string expected) =>
        Assert.Equal(expected, ChanceWords.Risk(Compared(verdict, 0.979m, 4m)));

    [Fact]
    public void Risk_WhatFeelersSettle_IsNoChance()
    {
        Assert.Null(ChanceWords.Risk(Compared(Verdict.Met, 1m, null)));
        Assert.Null(ChanceWords.In(Compared(Verdict.NotMet, 0m, null)));
        Assert.Equal("75.0 %", ChanceWords.In(Compared(Verdict.Unproven, 0.75m, null)));
        Assert.Equal("> 99.9 %", ChanceWords.In(Compared(Verdict.Met, 1m, 4m)));
        Assert.Null(ChanceWords.Risk(Compared(Verdict.Unproven, null, 4m)));
    }

    private static Comparison Compared(Verdict verdict, decimal? probability, decimal? value) =>
        new()
        {
            Quantity = MeasuredQuantity.HeightOfCut,
            Place = "51 mm",
            Verdict = verdict,
            Reason = FindingReason.None,
            Value = value is { } known ? Length.FromMillimetres(known) : null,
            Probability = probability,
        };
}
