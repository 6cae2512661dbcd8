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

    private readonly LimitItself onRange;
    private readonly LimitItself onTarget;
    private readonly bool rangeIsGuarded;
    private readonly bool targetIsGuarded;

    private UnitLimits(
        QuantityLimit? limit,
        Domain.Site.AreaTarget? inForce,
        MeasuredQuantity quantity,
        RuleBook book
    )
    {
        onRange = Itself(book, quantity, LimitSource.Sheet);
        onTarget = Itself(book, quantity, LimitSource.SettingOrder);
        rangeIsGuarded = IsGuarded(book, quantity, LimitSource.Sheet);
        targetIsGuarded = IsGuarded(book, quantity, LimitSource.SettingOrder);
        range = PrintedZone.Of(limit?.Lower, limit?.Upper, null);
        about = inForce is null ? null : PrintedZone.About(inForce.Target.Value, limit, inForce.Tolerance);
        Target = inForce?.Target.Value ?? limit?.Target?.Governing.Value;
        SideToSide = limit?.SideToSide;
        AcrossUnits = limit?.AcrossUnits;
    }

    /// <summary>The target in force, or else the sheet's.</summary>
    public Length? Target { get; }

    public DualPrint? SideToSide { get; }

    public DualPrint? AcrossUnits { get; }

    /// <summary>The limits of a unit; whether a limit itself is in or out is as the rules in force on it say.</summary>
    public static UnitLimits Of(UnitFrame unit, MeasuredQuantity quantity, RuleBook book) =>
        new(
            unit.Sheet.Of(quantity),
            unit.Targets.FirstOrDefault(target => target.Quantity == quantity),
            quantity,
            book
        );

    private static LimitItself Itself(RuleBook book, MeasuredQuantity quantity, LimitSource source) =>
        On(book, quantity, source).Any(rule => rule.Decision.LimitItself is LimitItself.Excluded)
            ? LimitItself.Excluded
            : LimitItself.Permitted;

    private static bool IsGuarded(RuleBook book, MeasuredQuantity quantity, LimitSource source) =>
        On(book, quantity, source).Any(rule => rule.Decision.By != DecisionRule.Unguarded);

    private static IEnumerable<Rule> On(RuleBook book, MeasuredQuantity quantity, LimitSource source) =>
        book
            .Packs.SelectMany(pack => pack.Rules)
            .Where(rule =>
                rule.Check is Check.LimitOnQuantity limit
                && limit.Quantity == quantity
                && limit.Against == source
            );

    private static ToleranceZone With(ToleranceZone zone, LimitItself itself) => zone.With(itself) ?? zone;

    /// <summary>Whether a value keeps all limits as printed in its system.</summary>
    public bool Allow(Length value, UnitSystem system) =>
        (range is null || With(range.In(system), onRange).Contains(value))
        && (about is null || With(about.In(system), onTarget).Contains(value));

    /// <summary>
    /// Whether a value that may be off by so much is proven to keep all limits as printed in its system, where a rule asks for
    /// proof. A limit too tight for the gauge anyway is not asked.
    /// </summary>
    public bool Prove(Length value, Length doubt, UnitSystem system) =>
        (
            range is null
            || !rangeIsGuarded
            || With(range.In(system), onRange).DrawnIn(doubt)?.Contains(value) != false
        )
        && (
            about is null
            || !targetIsGuarded
            || With(about.In(system), onTarget).DrawnIn(doubt)?.Contains(value) != false
        );

    /// <summary>
    /// The unit's own range and what the target in force permits, where no value keeps both: no move ends the finding, whichever way.
    /// None where some value does.
    /// </summary>
    public (PrintedZone Range, PrintedZone About)? Apart =>
        range is not null && about is not null && range.Common.Intersect(about.Common) is null
            ? (range, about)
            : null;

    /// <summary>Whether a profile that lies so far below and above the line that is set has no room inside all limits, wherever it is set.</summary>
    public bool LeaveNoRoomFor(Length below, Length above) =>
        Apart is null && All is { } zone && zone.Lower + below > zone.Upper - above;

    private ToleranceZone? All
    {
        get
        {
            var common = range is null ? null : With(range.Common, onRange);
            var around = about is null ? null : With(about.Common, onTarget);
            return around is null ? common : common?.Intersect(around) ?? around;
        }
    }

    /// <summary>
    /// Inside both prints of all limits, drawn in by the doubt of a reading so that the next one can prove it; where that
    /// leaves nothing, the limits themselves. Not asked where range and target permit nothing in common.
    /// </summary>
    /// <param name="doubt">What a reading may be off.</param>
    /// <param name="below">How far the profile lies below the line that is set, at the most; zero or more.</param>
    /// <param name="above">How far it lies above that line, at the most; zero or more.</param>
    public ToleranceZone? Drawn(Length doubt, Length below, Length above)
    {
        var zone = All;
        var straight =
            zone is not null
            && ToleranceZone.TryCreate(zone.Lower + below, zone.Upper - above, out var left, zone.LimitItself)
                ? left
                : zone;
        return straight?.DrawnIn(doubt) ?? straight;
    }
}
