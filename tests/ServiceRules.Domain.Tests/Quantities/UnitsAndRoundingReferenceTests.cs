using System.Text.Json;
using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Verdicts;
using ServiceRules.TestKit;
using Judge = ServiceRules.Domain.Conformity.Conformity;

namespace ServiceRules.Domain.Tests.Quantities;

/// <summary>
/// Against tests/reference/metrology/units-and-rounding.json: NIST SP 811 (2008), NIST PS 20-20 table 3 and
/// values computed there with exact rational arithmetic.
/// </summary>
public sealed class UnitsAndRoundingReferenceTests
{
    private static readonly JsonElement Reference = JsonElement.Parse(
        ReferenceFiles.ReadText("metrology", "units-and-rounding.json")
    );

    [Fact]
    public void Parse_InchDecimals_GiveTheExactMillimetres()
    {
        foreach (JsonElement row in Rows("inch_to_mm"))
        {
            Length length = Read($"{Text(row, "inch")} in");

            Assert.Equal(Exact.Of(Text(row, "mm_exact")), length.Millimetres);
            Assert.Equal(
                $"{Text(row, "mm_3dp_half_even")} mm",
                length.ToString(LengthUnit.Millimetre, decimals: 3)
            );
            Assert.Equal(
                $"{Text(row, "mm_2dp_half_even")} mm",
                length.ToString(LengthUnit.Millimetre, decimals: 2)
            );
        }
    }

    [Fact]
    public void Parse_InchFractions_GiveTheExactMillimetres()
    {
        foreach (JsonElement row in Rows("fractions"))
        {
            Length length = Read($"{Text(row, "inch_fraction")} in");

            Assert.Equal(Exact.Of(Text(row, "mm_exact")), length.Millimetres);
            Assert.Equal(Read($"{Text(row, "inch_decimal")} in"), length);
        }
    }

    [Fact]
    public void ToStringRounded_MillimetresInInches_AreTheNearestDecimals()
    {
        foreach (JsonElement row in Rows("mm_to_inch"))
        {
            string nine = Math.Round(Exact.Of(Text(row, "inch_12dp")), 9).ToString("F9", null);

            Length length = Read($"{Text(row, "mm")} mm");

            Assert.Equal($"{Text(row, "inch_4dp")} in", length.ToString(LengthUnit.Inch, decimals: 4));
            Assert.Equal($"{nine} in", length.ToString(LengthUnit.Inch, decimals: 9));
        }
    }

    [Fact]
    public void ToStringRounded_Ties_GoToTheEvenDigit()
    {
        foreach (JsonElement row in Rows("tie_cases"))
        {
            Length length = Length.FromMillimetres(Exact.Of(Text(row, "x")));
            int decimals = row.GetProperty("decimals").GetInt32();

            Assert.Equal($"{Text(row, "half_even")} mm", length.ToString(LengthUnit.Millimetre, decimals));
        }
    }

    // Lumber sizes in whole millimetres, published; 7.5 in is the tie that tells half-even from half-up.
    [Fact]
    public void ToStringRounded_PublishedLumberTable_Agrees()
    {
        foreach (JsonElement row in Rows("ps20_table3"))
        {
            Assert.Equal(
                $"{row.GetProperty("mm").GetInt32()} mm",
                Read($"{Text(row, "inch")} in").ToString(LengthUnit.Millimetre, decimals: 0)
            );
        }
    }

    [Fact]
    public void FromInches_AnInchAFootAYard_AreExact()
    {
        JsonElement exact = Reference.GetProperty("exact_definitions");

        Assert.Equal(Exact.Of(Text(exact, "inch_mm")), Length.FromInches(1m).Millimetres);
        Assert.Equal(Exact.Of(Text(exact, "foot_m")) * 1000, Length.FromInches(12m).Millimetres);
        Assert.Equal(Exact.Of(Text(exact, "yard_m")) * 1000, Length.FromInches(36m).Millimetres);
    }

    // NIST SP 811, B.7.1, and ASME A112 annex A: so many digits of a number below ten are one decimal less.
    [Theory]
    [InlineData("sp811_b71")]
    [InlineData("a112_annex_a")]
    public void ToStringRounded_PublishedExamples_AreRoundedAsPublished(string section)
    {
        foreach (JsonElement row in Reference.GetProperty(section).GetProperty("examples").EnumerateArray())
        {
            Length length = Length.FromMillimetres(Exact.Of(Text(row, "x")));
            int decimals = row.GetProperty("digits").GetInt32() - 1;

            Assert.Equal($"{Text(row, "rounded")} mm", length.ToString(LengthUnit.Millimetre, decimals));
        }
    }

    // Rounded in one step: by way of 12.25 it would be 12.2.
    [Fact]
    public void ToStringRounded_ByWayOfMoreDigits_IsStillOneStep()
    {
        Assert.Contains(
            Reference.GetProperty("iso_80000_1").GetProperty("facts").EnumerateArray(),
            fact => fact.GetString()!.Contains("12.254 to one decimal is 12.3", StringComparison.Ordinal)
        );

        Assert.Equal("12.3 mm", Length.FromMillimetres(12.254m).ToString(LengthUnit.Millimetre, decimals: 1));
    }

    // ASTM E29 names two methods: what was read is judged as read, never rounded to the digits of the limit before.
    [Fact]
    public void Decide_WhatWasObserved_IsJudgedByTheAbsoluteMethod()
    {
        foreach (
            JsonElement row in Reference.GetProperty("astm_e29").GetProperty("examples").EnumerateArray()
        )
        {
            Length limit = Length.FromMillimetres(Exact.Of(Text(row, "limit")));
            ToleranceZone zone =
                Text(row, "kind") == "max" ? ToleranceZone.AtMost(limit) : ToleranceZone.AtLeast(limit);
            MeasuredValue observed = MeasuredValue.Exact(
                Length.FromMillimetres(Exact.Of(Text(row, "observed")))
            );

            Assert.Equal(
                row.GetProperty("absolute_method_conforms").GetBoolean() ? Verdict.Met : Verdict.NotMet,
                Judge.Decide(zone, observed, DecisionRule.Unguarded).Verdict
            );
        }
    }

    [Fact]
    public void DualPrint_PrintsThatFlipAVerdict_KeepTheirTwoLimits()
    {
        foreach (JsonElement row in Rows("dual_dimension_traps"))
        {
            DualPrint print = DualPrint
                .Of(
                    PrintedLength.Parse($"{Text(row, "dimension_inch")} in").OrThrow(),
                    PrintedLength.Parse($"{Text(row, "mm_printed")} mm").OrThrow()
                )
                .OrThrow();
            Length measured = Read($"{Text(row, "measured_mm")} mm");
            bool isMaximum = Text(row, "limit_kind") == "max";

            Assert.Equal(
                row.GetProperty("conforms_to_exact_inch_limit").GetBoolean(),
                Conforms(measured, print.In(UnitSystem.Inch), isMaximum)
            );
            Assert.Equal(
                row.GetProperty("conforms_to_printed_mm_limit").GetBoolean(),
                Conforms(measured, print.In(UnitSystem.Metric), isMaximum)
            );
            Assert.Equal(
                Exact.Of(Text(row, "printed_minus_exact_mm")),
                (print.In(UnitSystem.Metric) - print.In(UnitSystem.Inch)).Millimetres
            );
        }
    }

    [Fact]
    public void Agreement_PrintsBesideTheirRelativeError_NoticeBeginsAboveFivePercent()
    {
        foreach (JsonElement row in Rows("dual_dimension_traps"))
        {
            PrintAgreement agreement = DualPrint
                .Of(
                    PrintedLength.Parse($"{Text(row, "dimension_inch")} in").OrThrow(),
                    PrintedLength.Parse($"{Text(row, "mm_printed")} mm").OrThrow()
                )
                .OrThrow()
                .Agreement;
            double percent = Math.Abs(row.GetProperty("relative_error_percent").GetDouble());

            Assert.True(
                agreement is PrintAgreement.Disagrees
                    || (agreement is PrintAgreement.AgreesWithNotice) == (percent > 5.0),
                $"{row.GetRawText()} gave {agreement}"
            );
        }
    }

    private static bool Conforms(Length measured, Length limit, bool isMaximum) =>
        isMaximum ? measured <= limit : measured >= limit;

    private static Length Read(string text) => PrintedLength.Parse(text).OrThrow().Value;

    private static List<JsonElement> Rows(string section)
    {
        List<JsonElement> rows = [.. Reference.GetProperty(section).GetProperty("rows").EnumerateArray()];
        Assert.NotEmpty(rows);
        return rows;
    }

    private static string Text(JsonElement row, string member) => row.GetProperty(member).GetString()!;
}
