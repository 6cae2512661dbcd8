using System.Globalization;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;

namespace ServiceRules.Application.Demo;

/// <summary>
/// One unit as it really is, which nobody sees: readings are taken from it with a gauge's error. Lengths are
/// millimetres. The gap is that at the clearance adjusters; below zero reel and bedknife press on each other by as much.
/// </summary>
internal sealed class UnitCondition
{
    // From contact heard and felt along the whole width to none: how deep the edges press. Judgement, no source.
    private const decimal ContactFrom = -0.001m;
    private const decimal HeavyBelow = -0.04m;
    private const decimal ShiftPerStep = 0.010m;

    public UnitCondition(FleetMachine machine, int position, Chance chance)
    {
        Machine = machine;
        Position = position;
        Diameter = machine.FirstDiameters[position - 1] + chance.Noise(0.03m);
        Taper = chance.Noise(0.06m);
        Lip = chance.Between(6.6m, 7.8m);
        Land = chance.Between(1.1m, 1.6m);
        GapLeft = GapRight = machine.Kind.KeepsContact ? 0.03m : 0.09m;
        Shield = 1.6m + chance.Noise(0.06m);
        Brush = 1.0m + chance.Noise(0.06m);
        RollerOut = chance.Noise(0.03m);
        var (made, number) = (chance.Between(17, 24), chance.Between(100, 999));
        Reel = string.Create(CultureInfo.InvariantCulture, $"R-{made}{number}");
        Bedknife = string.Create(CultureInfo.InvariantCulture, $"B-{made + 1}{number + 7}");
    }

    public FleetMachine Machine { get; }

    public UnitKind Kind => Machine.Kind;

    public int Position { get; }

    public Id<UnitWork> Id => IdOf(Machine, Position);

    public string Reel { get; set; }

    public string Bedknife { get; set; }

    public decimal Diameter { get; set; }

    /// <summary>How much larger the reel is at its left end than at its right.</summary>
    public decimal Taper { get; set; }

    public decimal Lip { get; set; }

    public decimal Land { get; set; }

    public decimal GapLeft { get; private set; }

    public decimal GapRight { get; private set; }

    public decimal HeightLeft { get; set; }

    public decimal HeightRight { get; set; }

    /// <summary>How much the front roller is farther from the edge at its right gauging station than at its left.</summary>
    public decimal RollerOut { get; set; }

    /// <summary>The groomer below (minus) or above the height of cut.</summary>
    public decimal GroomerOff { get; set; }

    public decimal Shield { get; set; }

    public decimal Brush { get; set; }

    public bool HasBearingPlay { get; set; }

    public bool IsWorn => Kind.WornBelow is { } worn && Diameter <= worn;

    public ContactState Contact =>
        (GapLeft, GapRight) switch
        {
            var (left, right) when left < HeavyBelow || right < HeavyBelow => ContactState.Heavy,
            (<= ContactFrom, <= ContactFrom) => ContactState.Light,
            (> ContactFrom, > ContactFrom) => ContactState.None,
            _ => ContactState.Partial,
        };

    public static Id<UnitWork> IdOf(FleetMachine machine, int position) =>
        new(string.Create(CultureInfo.InvariantCulture, $"U-{machine.Id[2..]}-{position}"));

    /// <summary>The gap at a distance from the left end.</summary>
    public decimal GapAt(decimal fromLeft)
    {
        var span = Kind.Width + (2 * Kind.AdjusterOverhang);
        return GapLeft + ((GapRight - GapLeft) * (fromLeft + Kind.AdjusterOverhang) / span);
    }

    /// <summary>Mows for some hours: edges wear, rollers wear, bolts settle.</summary>
    public void Mow(decimal hours, Chance chance)
    {
        GapLeft += hours * Kind.WearPerHour * chance.Between(0.6m, 1.2m);
        GapRight += hours * Kind.WearPerHour * chance.Between(0.6m, 1.2m);
        Diameter -= hours * 0.0004m * chance.Between(0.5m, 1.5m);
        Taper += chance.Noise(hours * 0.0002m);
        RollerOut += chance.Noise(hours * 0.0004m);
        Land += hours * 0.0008m * chance.Between(0.5m, 1.5m);
        var settle = hours * 0.0004m;
        HeightLeft -= (settle * chance.Between(0.2m, 1.8m)) + chance.Noise(0.010m);
        HeightRight -= (settle * chance.Between(0.2m, 1.8m)) + chance.Noise(0.010m);
        Shield += hours * 0.0003m;
    }

    /// <summary>Turns the clearance adjusters; opening is positive. A moving bedknife takes the height with it.</summary>
    public void TurnClearance(int left, int right)
    {
        GapLeft += left * Kind.Step;
        GapRight += right * Kind.Step;
        if (Kind.HasMovingBedknife)
        {
            HeightLeft += left * ShiftPerStep;
            HeightRight += right * ShiftPerStep;
        }
    }

    /// <summary>
    /// Lets the gap at each side lie so that some whole number of clicks ends in light contact and the shop's clicks
    /// back from there end where the feelers tell. It moves by half a click at most; wear is not that exact.
    /// </summary>
    public void SettleForClicks(Chance chance)
    {
        GapLeft = Settled(GapLeft, chance);
        GapRight = Settled(GapRight, chance);
    }

    /// <summary>Clicks to close on a side until the edges touch lightly.</summary>
    public int ClicksToContact(decimal gap) =>
        Math.Max(0, (int)decimal.Ceiling((gap - ContactFrom) / Kind.Step));

    public void SetGap(decimal left, decimal right) => (GapLeft, GapRight) = (left, right);

    private decimal Settled(decimal gap, Chance chance)
    {
        var touching = chance.Between(-0.0100m, -0.0025m);
        var clicks = Math.Max(1, decimal.Round((gap - touching) / Kind.Step));
        return touching + (clicks * Kind.Step);
    }
}
