using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>Everything that limits one quantity of one unit: the sheet's range, the target in force, its two sides, the others.</summary>
internal sealed class UnitLimits
{
    private readonly PrintedZone? range;
    private readonly PrintedZone? about;

    private UnitLimits(QuantityLimit? limit, Domain.Site.AreaTarget? inForce)
    {
        range = PrintedZone.Of(limit?.Lower, limit?.Upper, null);
        var tolerance = inForce?.Tolerance is { } stated ? DualPrint.Of(stated) : limit?.ToleranceAboutTarget;
        about =
            inForce is not null && tolerance is not null
                ? PrintedZone.About(inForce.Target.Value, tolerance)
                : null;
        Target = inForce?.Target.Value ?? limit?.Target?.Governing.Value;
        SideToSide = limit?.SideToSide;
        AcrossUnits = limit?.AcrossUnits;
    }

    /// <summary>The target in force, or else the sheet's.</summary>
    public Length? Target { get; }

    public DualPrint? SideToSide { get; }

    public DualPrint? AcrossUnits { get; }

    public static UnitLimits Of(UnitFrame unit, MeasuredQuantity quantity) =>
        new(unit.Sheet.Of(quantity), unit.Targets.FirstOrDefault(target => target.Quantity == quantity));

    /// <summary>Whether a value keeps all limits as printed in its system.</summary>
    public bool Allow(Length value, UnitSystem system) =>
        (range?.In(system).Contains(value) ?? true) && (about?.In(system).Contains(value) ?? true);

    /// <summary>
    /// Inside both prints of all limits, drawn in by the doubt of a reading so that the next one can prove it; where that
    /// leaves nothing, the limits themselves. A target outside the range is still where the settings in force want it.
    /// </summary>
    public ToleranceZone? Drawn(Length doubt)
    {
        var zone = about is null ? range?.Common : range?.Common.Intersect(about.Common) ?? about.Common;
        return zone?.DrawnIn(doubt) ?? zone;
    }
}
