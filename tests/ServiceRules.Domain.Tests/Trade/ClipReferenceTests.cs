using System.Globalization;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Trade;

namespace ServiceRules.Domain.Tests.Trade;

/// <summary>F01 to F07 of the trade reference, as printed there.</summary>
public sealed class ClipReferenceTests
{
    private const decimal MillimetresPerInch = 25.4m;

    [Fact]
    public void Spacing_F01_IsAsPrinted()
    {
        var formula = TradeFormula.Named("F01");
        var clip = Of(formula);

        formula.Prints("FOC_mm", clip.Spacing.Millimetres);
        formula.Prints("FOC_in", clip.Spacing.Millimetres / MillimetresPerInch);
    }

    /// <summary>
    /// The source of F01 (S01) prints 0.122 in and 3.098 mm "for 6 km/h (3.8 mph)". 3.8 mph gives 0.1216 in, which is the
    /// printed 0.122 in; the printed millimetres are those rounded inches times 25.4. Exactly it is 3.089 mm at 3.8 mph and
    /// 3.030 mm at 6 km/h, which is another speed.
    /// </summary>
    [Fact]
    public void Spacing_PublishedExampleOfF01_IsTheRoundedInchFigureTimesTwentyFivePointFour()
    {
        var miles = new Clip(Speed.Parse("3.8 mph").OrThrow(), Rate(2200), 15);
        var kilometres = new Clip(Kmh(6), Rate(2200), 15);

        Assert.Equal(0.122m, Math.Round(miles.Spacing.Millimetres / MillimetresPerInch, 3));
        Assert.Equal(3.089m, Math.Round(miles.Spacing.Millimetres, 3));
        Assert.Equal(3.030m, Math.Round(kilometres.Spacing.Millimetres, 3));
        Assert.Equal(3.098m, Math.Round(0.122m * MillimetresPerInch, 3, MidpointRounding.ToZero));
    }

    [Fact]
    public void CutsPerMetre_F02_IsAThousandOverTheSpacing()
    {
        var formula = TradeFormula.Named("F02");
        var spacings = formula
            .GivenList("cuts_per_m")
            .Select(cuts => (Cuts: cuts, Clip: new Clip(Kmh(0.06m), Rate(cuts), 1)))
            .ToList();

        // 1 m a minute and one blade: as many turns as cuts in a metre.
        Assert.All(spacings, each => Assert.Equal(each.Cuts, each.Clip.CutsPerMetre));
        formula.Print("FOC_mm", spacings.Select(each => each.Clip.Spacing.Millimetres));
    }

    [Fact]
    public void HighestSpeedAndLowestTurns_F03_AreAsPrintedRoundedToTheSafeSide()
    {
        var formula = TradeFormula.Named("F03");
        var height = Mm(formula.Given("HOC_mm"));
        var ratio = formula.Given("ratio_limit");
        var blades = (int)formula.Given("blades");

        var fastest = Clip.HighestSpeed(
            ratio,
            height,
            Rate(formula.Given("reel_rpm")),
            blades,
            SpeedUnit.KilometrePerHour
        );
        var slowest = Clip.LowestReelSpeed(ratio, height, Kmh(formula.Given("speed_kmh_for_second")), blades);

        Assert.Equal("10.3 km/h", fastest.ToString());
        Assert.Equal(10.37m, formula.Result("speed_max_kmh"));
        // 1736.1 turns: rounded up, so that 1737 keep the clip and the printed 1736 would just not.
        Assert.Equal(1737m, slowest!.Value.RevolutionsPerMinute);
        Assert.Equal(1736m, formula.Result("reel_rpm_min"));
    }

    [Fact]
    public void FewestBlades_F04_IsAsPrinted()
    {
        var formula = TradeFormula.Named("F04");

        Assert.Equal(
            formula.Result("blades_min"),
            Clip.FewestBlades(
                formula.Given("ratio_limit"),
                Mm(formula.Given("HOC_mm")),
                Kmh(formula.Given("speed_kmh")),
                Rate(formula.Given("reel_rpm"))
            )!.Value
        );
    }

    [Fact]
    public void RatioTo_F05_IsAsPrinted()
    {
        var formula = TradeFormula.Named("F05");
        var clip = Of(TradeFormula.Named("F01"));

        formula.Print("ratio", formula.GivenList("HOC_mm").Select(height => clip.RatioTo(Mm(height))));
    }

    [Fact]
    public void RidgeAt_F06_IsAsPrinted()
    {
        var formula = TradeFormula.Named("F06");
        var height = Mm(formula.Given("HOC_mm"));

        // A metre a minute over 1000 turns of one blade: a millimetre a clip.
        var ridges = formula
            .GivenList("FOC_mm")
            .Select(spacing =>
                new Clip(Speed.Parse(Text(spacing) + " m/min").OrThrow(), Rate(1000), 1).RidgeAt(height)
            )
            .ToList();

        formula.Print("ridge_mm", ridges.Select(ridge => ridge.Millimetres));
        formula.Print(
            "ridge_pct_of_HOC",
            ridges.Select(ridge => 100m * ridge.Millimetres / height.Millimetres)
        );
    }

    [Fact]
    public void Of_F07_PrintsThePitchesOfBladeReelAndRollers()
    {
        var formula = TradeFormula.Named("F07");
        var rollers = formula.GivenList("roller_diameter");
        var clip = Of(formula);

        var diagnosis = WaveDiagnosis.Of(Mm(100), clip, Mm(rollers[0]), Mm(rollers[1]));

        formula.Prints("pitch_blade_mm", Pitch(diagnosis, WaveCause.Blade));
        formula.Prints("pitch_reel_mm", Pitch(diagnosis, WaveCause.Reel));
        formula.Print(
            "pitch_roller_mm",
            [Pitch(diagnosis, WaveCause.FrontRoller), Pitch(diagnosis, WaveCause.RearRoller)]
        );
    }

    private static Clip Of(TradeFormula formula) =>
        new(Kmh(formula.Given("speed_kmh")), Rate(formula.Given("reel_rpm")), (int)formula.Given("blades"));

    private static decimal Pitch(WaveDiagnosis diagnosis, WaveCause cause) =>
        diagnosis.Candidates.Single(candidate => candidate.Cause == cause).Pitch.Millimetres;

    private static Length Mm(decimal millimetres) => Length.FromMillimetres(millimetres);

    private static Speed Kmh(decimal figure) => Speed.Parse(Text(figure) + " km/h").OrThrow();

    private static RotationRate Rate(decimal figure) =>
        RotationRate.Parse(Text(figure) + " rev/min").OrThrow();

    private static string Text(decimal figure) => figure.ToString(CultureInfo.InvariantCulture);
}
