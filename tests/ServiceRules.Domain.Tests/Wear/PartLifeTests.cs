using System.Globalization;
using FsCheck.Xunit;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Tests.Trade;
using ServiceRules.Domain.Wear;

namespace ServiceRules.Domain.Tests.Wear;

/// <summary>F25, F26, F27, F29, F30, F35 and F37 of the trade reference, as printed there, and at their edges.</summary>
[Properties(MaxTest = PropertyCases.Each)]
public sealed class PartLifeTests
{
    [Fact]
    public void ReelLife_F25_IsAsPrinted()
    {
        var formula = TradeFormula.Named("F25");
        var diameter = Mm(formula.Given("D"));
        var limit = Mm(formula.Given("D_limit"));

        formula.Prints("remaining_mm", ReelLife.Remaining(diameter, limit).Millimetres);
        formula.Prints(
            "hours_left",
            ReelLife.HoursLeft(diameter, limit, Rate(formula.Given("wear_mm_per_h")))!.Value.Hours
        );
        formula.Prints(
            "grinds_left",
            ReelLife.GrindsLeft(diameter, limit, Mm(formula.Given("mm_per_grind_incl_wear")))
        );
    }

    [Fact]
    public void ReelLife_AtOrBelowTheLimit_HasNothingLeft()
    {
        Assert.Equal(0, ReelLife.GrindsLeft(Mm(114), Mm(114), Mm(0.5m)));
        Assert.Equal(0, ReelLife.GrindsLeft(Mm(113), Mm(114), Mm(0.5m)));
        Assert.Equal(1, ReelLife.GrindsLeft(Mm(114.5m), Mm(114), Mm(0.5m)));
        Assert.Equal(RunningTime.Zero, ReelLife.HoursLeft(Mm(113), Mm(114), Rate(0.001m)));
        Assert.Null(ReelLife.HoursLeft(Mm(120), Mm(114), WearRate.Zero));
    }

    [Fact]
    public void GrindsLeft_NothingLostInAGrind_IsRefused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => ReelLife.GrindsLeft(Mm(120), Mm(114), Length.Zero));

    [Fact]
    public void LandGrowth_F26_IsAsPrinted()
    {
        var formula = TradeFormula.Named("F26");
        var relief = Degrees(formula.Given("relief_angle"));
        var land = Mm(formula.Given("land_now"));
        var limit = Mm(formula.Given("land_limit"));

        var loss = LandGrowth.DiameterToLimit(land, limit, relief);

        formula.Prints("delta_D_to_limit_mm", loss.Millimetres);
        ReferenceNumber.Near((limit - land).Millimetres, LandGrowth.Of(loss, relief).Millimetres, 0.000001m);
    }

    // At 45 degrees the relief falls away as fast as it goes back: half the diameter lost is the land gained.
    [Fact]
    public void LandGrowth_AtFortyFiveDegrees_IsHalfTheDiameter() =>
        Assert.Equal(Mm(0.25m), LandGrowth.Of(Mm(0.5m), Degrees(45)));

    [Theory]
    [InlineData(0)]
    [InlineData(90)]
    [InlineData(-5)]
    public void LandGrowth_NoRelief_IsRefused(int degrees) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => LandGrowth.Of(Mm(0.5m), Degrees(degrees)));

    [Fact]
    public void BedknifeLife_F27_IsAsPrinted()
    {
        var formula = TradeFormula.Named("F27");
        var lip = Mm(formula.Given("lip_now"));
        // The formula itself states the limit of that family, 4.8 mm.
        var limit = Mm(4.8m);

        formula.Prints("lip_left_mm", BedknifeLife.Remaining(lip, limit).Millimetres);
        formula.Prints(
            "facings_left",
            BedknifeLife.FacingsLeft(lip, limit, Mm(formula.Given("mm_per_top_grind")))
        );
    }

    [Fact]
    public void ShieldGap_F29_IsAsPrinted()
    {
        var formula = TradeFormula.Named("F29");

        formula.Prints(
            "gap_now_mm",
            ShieldGapDrift
                .Expected(
                    Mm(formula.Given("gap_set")),
                    Mm(formula.Given("D_at_set")),
                    Mm(formula.Given("D_now"))
                )
                .Millimetres
        );
    }

    [Fact]
    public void GroomerDepth_F30_IsAsPrinted()
    {
        var formula = TradeFormula.Named("F30");
        var height = Length.FromInches(formula.Given("HOC_in"));
        var share = formula.Given("p");

        var groomer = GroomerDepth.HeightFor(height, share);

        formula.Prints("groomer_height_mm", groomer.Millimetres);
        formula.Prints("groomer_height_in", groomer.Millimetres / 25.4m);
        formula.Prints(
            "tolerance_in",
            (groomer * formula.Given("tolerance_p_of_setting")).Millimetres / 25.4m
        );
        Assert.Equal(share, GroomerDepth.Share(GroomerDepth.Of(height, groomer), height));
    }

    [Fact]
    public void GroomerDepth_BladesWorn_LoseHalfTheDiameter() =>
        Assert.Equal(Mm(0.8m), GroomerDepth.AfterWear(Mm(1.0m), Mm(60), Mm(59.6m)));

    [Fact]
    public void TakeUp_F35_IsAsPrinted()
    {
        var formula = TradeFormula.Named("F35");

        formula.Prints(
            "take_up_mm_per_h",
            WearRate
                .Of(
                    Mm(formula.Given("step_mm")) * (int)formula.Given("clicks_in"),
                    RunningTime.FromHours(formula.Given("hours"))
                )
                .MillimetresPerHour
        );
    }

    [Fact]
    public void TakeUp_AgainstItsOwnMedian_SaysHowManyTimes()
    {
        var signal = TakeUp.Against(Rate(0.004m), [Rate(0.001m), Rate(0.9m), Rate(0.002m)])!;

        Assert.Equal((Rate(0.002m), 2m), (signal.Usual, signal.Times));
        Assert.False(signal.IsHigh(TakeUp.UsualMultiple));
        Assert.True(signal.IsHigh(1.99m));
    }

    [Fact]
    public void TakeUp_TooLittleOfItsOwn_SaysNothing()
    {
        Assert.Null(TakeUp.Against(Rate(0.004m), [Rate(0.001m), Rate(0.002m)]));
        Assert.Null(TakeUp.Against(Rate(0.004m), [Rate(0m), Rate(0m), Rate(0.002m)]));
    }

    [Fact]
    public void GrindDue_F37_IsAsPrintedForBothIntervals()
    {
        var formula = TradeFormula.Named("F37");
        var since = RunningTime.FromHours(formula.Given("hours_since_grind"));

        formula.Print(
            "due_in_h",
            formula
                .GivenList("interval_h")
                .Select(interval => GrindDue.In(RunningTime.FromHours(interval), since, null).Hours)
        );
    }

    [Theory]
    [InlineData(10, 10)]
    [InlineData(30, 30)]
    [InlineData(40, 30)]
    public void GrindDue_LimitThatComesFirst_Decides(int toLimit, int due) =>
        Assert.Equal(
            RunningTime.FromHours(due),
            GrindDue.In(
                RunningTime.FromHours(200),
                RunningTime.FromHours(170),
                RunningTime.FromHours(toLimit)
            )
        );

    [Fact]
    public void WeeklyUse_BetweenTwoReadings_IsHoursOverWeeks()
    {
        var first = new DateOnly(2026, 3, 2);

        Assert.Equal(
            RunningTime.FromHours(18),
            WeeklyUse.Of(first, Hours(100), first.AddDays(14), Hours(136))
        );
        Assert.Equal(
            RunningTime.FromHours(36),
            WeeklyUse.Of(first, Hours(100), first.AddDays(7), Hours(136))
        );
        Assert.Null(WeeklyUse.Of(first, Hours(100), first.AddDays(6), Hours(136)));
        Assert.Null(WeeklyUse.Of(first, Hours(100), first.AddDays(14), Hours(100)));
    }

    /// <summary>18 h a week: 17.9 h are 6.96 days and 18.1 h 7.04; a band is rounded outward.</summary>
    [Fact]
    public void ForecastDates_Of_ABand_RoundsItOutward()
    {
        var from = new DateOnly(2026, 4, 13);
        var forecast = new WearForecast.Reaches(
            RunningTime.FromHours(18),
            RunningTime.FromHours(17.9m),
            RunningTime.FromHours(18.1m),
            Domain.Measurement.Probability.One
        );

        Assert.Equal(
            new(from.AddDays(7), from.AddDays(6), from.AddDays(8)),
            ForecastDates.Of(forecast, from, RunningTime.FromHours(18))
        );
    }

    [Fact]
    public void ForecastDates_Of_FloorsDaysAndStopsAtTheLastYear()
    {
        var from = new DateOnly(2026, 4, 13);
        var forecast = new WearForecast.Reaches(
            RunningTime.FromHours(18),
            RunningTime.FromHours(17.9m),
            null,
            Domain.Measurement.Probability.One
        );

        Assert.Equal(
            new(from.AddDays(7), from.AddDays(6), null),
            ForecastDates.Of(forecast, from, RunningTime.FromHours(18))
        );
        Assert.Null(ForecastDates.Of(forecast, from, RunningTime.Zero));
        Assert.Null(ForecastDates.Of(forecast, from, RunningTime.FromHours(0.0001m)));
    }

    [Property]
    public void GrindsLeft_MoreDiameter_IsNeverFewer(ushort left, byte more, byte perGrind)
    {
        var each = Mm((perGrind + 1) / 100m);
        var limit = Mm(114);

        var fewer = ReelLife.GrindsLeft(limit + Mm(left / 1000m), limit, each);
        var further = ReelLife.GrindsLeft(limit + Mm((left + more) / 1000m), limit, each);

        Assert.True(further >= fewer);
        Assert.True(each * fewer <= Mm(left / 1000m) && each * (fewer + 1) > Mm(left / 1000m));
    }

    [Property]
    public void LandGrowth_MoreDiameterLost_IsAWiderLand(ushort loss, byte more, byte degrees)
    {
        var relief = Degrees((degrees % 80) + 5);

        Assert.True(
            LandGrowth.Of(Mm((loss + more + 1) / 100m), relief) > LandGrowth.Of(Mm(loss / 100m), relief)
        );
    }

    private static WearRate Rate(decimal rate) => WearRate.FromMillimetresPerHour(rate);

    private static Angle Degrees(decimal degrees) =>
        Angle.Parse(degrees.ToString(CultureInfo.InvariantCulture) + " deg").OrThrow();

    private static OperatingHours Hours(decimal hours) =>
        OperatingHours.Parse(hours.ToString(CultureInfo.InvariantCulture) + " h").OrThrow();

    private static Length Mm(decimal millimetres) => Length.FromMillimetres(millimetres);
}
