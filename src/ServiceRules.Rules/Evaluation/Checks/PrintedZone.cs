using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Quantities;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// Limits as printed: a zone for each system of units. Where the sheet prints only one figure both are the same.
/// </summary>
internal sealed record PrintedZone
{
    private readonly ToleranceZone metric;
    private readonly ToleranceZone inch;

    private PrintedZone(ToleranceZone metric, ToleranceZone inch, UnitSystem governing, Length? target)
    {
        this.metric = metric;
        this.inch = inch;
        Governing = governing;
        Target = target;
    }

    /// <summary>The value aimed at, if there is one.</summary>
    public Length? Target { get; }

    /// <summary>The system whose print governs.</summary>
    public UnitSystem Governing { get; }

    /// <summary>Whether the two systems print different limits.</summary>
    public bool IsTwofold => metric != inch;

    /// <summary>The values that both prints permit; the governing print's where they permit none in common.</summary>
    public ToleranceZone Common =>
        ToleranceZone.InsideBothPrints(
            In(Governing),
            metric == inch ? null
                : Governing is UnitSystem.Inch ? metric
                : inch
        );

    /// <summary>The limits printed in a system.</summary>
    public ToleranceZone In(UnitSystem system) => system is UnitSystem.Inch ? inch : metric;

    /// <summary>The limits that hold what was read in a system, or in both: then what both prints permit.</summary>
    public ToleranceZone For(UnitSystem system, bool isReadInBoth) => isReadInBoth ? Common : In(system);

    /// <summary>Limits of a sheet; none when it states none, or they are crossed.</summary>
    public static PrintedZone? Of(DualPrint? lower, DualPrint? upper, Length? target) =>
        ToleranceZone.TryCreate(lower?.In(UnitSystem.Metric), upper?.In(UnitSystem.Metric), out var metric)
        && ToleranceZone.TryCreate(lower?.In(UnitSystem.Inch), upper?.In(UnitSystem.Inch), out var inch)
            ? new(metric, inch, (upper ?? lower)!.Governing.System, target)
            : null;

    /// <summary>
    /// A target with what is allowed either way: in each system of units the tighter of what the sheet prints and what the
    /// order states, since an order may tighten only; none when neither says anything.
    /// </summary>
    public static PrintedZone? About(Length target, QuantityLimit? sheet, PrintedLength? ordered) =>
        (sheet?.ToleranceAboutTarget, ordered) switch
        {
            ({ } printed, { } own) => new(
                Around(target, Length.Min(printed.In(UnitSystem.Metric).Abs, own.Value.Abs)),
                Around(target, Length.Min(printed.In(UnitSystem.Inch).Abs, own.Value.Abs)),
                sheet!.IsTighterThan(own) ? printed.Governing.System : own.System,
                target
            ),
            ({ } printed, null) => About(target, printed),
            (null, { } own) => About(target, DualPrint.Of(own)),
            _ => null,
        };

    private static PrintedZone About(Length target, DualPrint tolerance) =>
        new(
            Around(target, tolerance.In(UnitSystem.Metric)),
            Around(target, tolerance.In(UnitSystem.Inch)),
            tolerance.Governing.System,
            target
        );

    /// <summary>No difference greater than this, either way.</summary>
    public static PrintedZone Within(DualPrint most) =>
        new(
            Around(Length.Zero, most.In(UnitSystem.Metric)),
            Around(Length.Zero, most.In(UnitSystem.Inch)),
            most.Governing.System,
            null
        );

    /// <summary>The same by two sheets at once: in each system of units the tighter of what they print.</summary>
    public static PrintedZone Within(DualPrint one, DualPrint other) =>
        new(
            Around(Length.Zero, Length.Min(one.In(UnitSystem.Metric), other.In(UnitSystem.Metric))),
            Around(Length.Zero, Length.Min(one.In(UnitSystem.Inch), other.In(UnitSystem.Inch))),
            (one.Governing.Value <= other.Governing.Value ? one : other).Governing.System,
            null
        );

    /// <summary>
    /// No difference, either way, greater than the room between two limits; none when a limit is missing or they leave no
    /// room.
    /// </summary>
    public static PrintedZone? RoomBetween(DualPrint? lower, DualPrint? upper) =>
        lower is not null
        && upper is not null
        && Room(lower, upper, UnitSystem.Metric) is { } metric
        && Room(lower, upper, UnitSystem.Inch) is { } inch
            ? new(metric, inch, upper.Governing.System, null)
            : null;

    /// <summary>At most this.</summary>
    public static PrintedZone AtMost(DualPrint most) =>
        new(
            ToleranceZone.AtMost(most.In(UnitSystem.Metric)),
            ToleranceZone.AtMost(most.In(UnitSystem.Inch)),
            most.Governing.System,
            null
        );

    /// <summary>At least this, by a figure that no manual prints.</summary>
    public static PrintedZone AtLeast(Length least)
    {
        var zone = ToleranceZone.AtLeast(least);
        return new(zone, zone, UnitSystem.Metric, null);
    }

    private static ToleranceZone? Room(DualPrint lower, DualPrint upper, UnitSystem system) =>
        upper.In(system) > lower.In(system) ? Around(Length.Zero, upper.In(system) - lower.In(system)) : null;

    private static ToleranceZone Around(Length target, Length tolerance) =>
        ToleranceZone.Between(target - tolerance.Abs, target + tolerance.Abs);
}
