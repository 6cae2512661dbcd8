using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Vocabulary;
using ServiceRules.Rules.Model;

namespace ServiceRules.Formats.Sheets;

/// <summary>What a sheet asks of one quantity.</summary>
internal static class QuantityLimitShapes
{
    private static readonly ObjectShape<SchoolProcedure> SchoolObject = Shape.Object<SchoolProcedure>(
        "school-procedure",
        "How one school sets and proves a gap.",
        o =>
        {
            var school = o.Required("school", Choices.School, "the school", s => s.School);
            var passes = o.Optional(
                "passes",
                SharedShapes.PrintedSize,
                "feeler that must just pass at every station",
                s => s.Passes
            );
            var stops = o.Optional(
                "stops",
                SharedShapes.PrintedSize,
                "next feeler, that must not pass",
                s => s.Stops
            );
            o.NeededFor(school, ["air-gap"], passes);
            o.NeededFor(school, ["air-gap"], stops);
            o.Check(
                v => IsBelow(v.Get(passes), v.Get(stops)),
                stops,
                "the feeler that stops is no thicker than the one that passes",
                "a thicker feeler"
            );
            return v => new SchoolProcedure(v.Get(school), v.Get(passes), v.Get(stops));
        }
    );

    /// <summary>What a sheet says nothing of on purpose.</summary>
    public static ObjectShape<LeftOutQuantity> LeftOut { get; } =
        Shape.Object<LeftOutQuantity>(
            "left-out",
            "A quantity of which the sheet says nothing on purpose.",
            o =>
            {
                var quantity = o.Required("quantity", Choices.Quantity, "the quantity", q => q.Quantity);
                var why = o.Required("why", Terms.Sentence, "why, in plain words", q => q.Why);
                return v => new LeftOutQuantity(v.Get(quantity), v.Get(why));
            }
        );

    public static ObjectShape<QuantityLimit> Limit { get; } =
        Shape.Object<QuantityLimit>(
            "quantity-limit",
            "What is asked of one quantity.",
            o =>
            {
                var quantity = o.Required("quantity", Choices.Quantity, "the quantity", q => q.Quantity);
                var left = o.Optional(
                    "leftStation",
                    Terms.Distance,
                    "left gauging station, from the left end",
                    q => q.LeftStation
                );
                var right = o.Optional(
                    "rightStation",
                    Terms.Distance,
                    "right gauging station, from the left end",
                    q => q.RightStation
                );
                var lower = o.Optional("lower", SharedShapes.Print, "lower limit", q => q.Lower);
                var upper = o.Optional("upper", SharedShapes.Print, "upper limit", q => q.Upper);
                var target = o.Optional("target", SharedShapes.Print, "value aimed at", q => q.Target);
                var tolerance = o.Optional(
                    "toleranceAboutTarget",
                    SharedShapes.PrintedSize,
                    "allowed either way from the target of the setting order",
                    q => q.ToleranceAboutTarget
                );
                var sides = o.Optional(
                    "sideToSide",
                    SharedShapes.PrintedSize,
                    "largest difference between the two ends of one unit",
                    q => q.SideToSide
                );
                var across = o.Optional(
                    "acrossUnits",
                    SharedShapes.PrintedSize,
                    "largest difference between the units of one machine",
                    q => q.AcrossUnits
                );
                var adjacent = o.Optional(
                    "adjacentEnds",
                    SharedShapes.PrintedSize,
                    "largest step between adjacent ends of neighbouring units",
                    q => q.AdjacentEnds
                );
                var parallelism = o.Optional(
                    "parallelism",
                    SharedShapes.PrintedSize,
                    "largest departure from parallel to the datum, over the width",
                    q => q.Parallelism
                );
                var taper = o.Optional(
                    "taper",
                    SharedShapes.PrintedSize,
                    "for the reel diameter: largest difference between the two ends of the reel",
                    q => q.Taper
                );
                var barrel = o.Optional(
                    "barrel",
                    SharedShapes.PrintedSize,
                    "for the reel diameter: largest difference between its middle and the mean of its ends",
                    q => q.Barrel
                );
                var twist = o.Optional(
                    "twist",
                    SharedShapes.PrintedSize,
                    "for the front roller on the plate: largest twist of the two rollers against one another",
                    q => q.Twist
                );
                var schools = o.Items(
                    "schools",
                    SchoolObject,
                    FormatLimits.Words,
                    "procedures of the schools",
                    q => q.Schools
                );
                var worn = o.Optional(
                    "wornBelow",
                    SharedShapes.PrintedSize,
                    "value at or below which the unit must be set up for a worn reel",
                    q => q.WornBelow
                );
                var basis = o.Required("basis", SharedShapes.Basis, "what this limit rests on", q => q.Basis);
                o.Needs(left, right);
                o.Check(
                    v => v.Get(taper) is null || v.Get(quantity) is MeasuredQuantity.ReelDiameter,
                    taper,
                    "only a diameter has a taper",
                    "`taper` of `reel-diameter`"
                );
                o.Check(
                    v => v.Get(barrel) is null || v.Get(quantity) is MeasuredQuantity.ReelDiameter,
                    barrel,
                    "only a diameter has a barrel",
                    "`barrel` of `reel-diameter`"
                );
                o.Check(
                    v => v.Get(twist) is null || v.Get(quantity) is MeasuredQuantity.FrontRollerOnPlate,
                    twist,
                    "twist is stated once, for both rollers together",
                    "`twist` of `front-roller-on-plate`"
                );
                o.Needs(right, left);
                o.Check(
                    v => v.Get(left) is not { } from || v.Get(right) is not { } to || from.Value < to.Value,
                    right,
                    "the right station is not right of the left one",
                    "more than `leftStation`"
                );
                o.Check(
                    v => IsBelow(v.Get(lower), v.Get(upper)),
                    upper,
                    "no value is within these limits",
                    "more than `lower`"
                );
                o.Check(
                    v => IsNotAbove(v.Get(lower), v.Get(target)) && IsNotAbove(v.Get(target), v.Get(upper)),
                    target,
                    "the target is outside the limits",
                    "a value from `lower` to `upper`"
                );
                o.Check(
                    v =>
                        v.Get(schools).Select(school => school.School).Distinct().Count()
                        == v.Get(schools).Length,
                    schools,
                    "a school stands twice",
                    "each school once"
                );
                return v => new QuantityLimit
                {
                    Quantity = v.Get(quantity),
                    LeftStation = v.Get(left),
                    RightStation = v.Get(right),
                    Lower = v.Get(lower),
                    Upper = v.Get(upper),
                    Target = v.Get(target),
                    ToleranceAboutTarget = v.Get(tolerance),
                    SideToSide = v.Get(sides),
                    AcrossUnits = v.Get(across),
                    AdjacentEnds = v.Get(adjacent),
                    Parallelism = v.Get(parallelism),
                    Taper = v.Get(taper),
                    Barrel = v.Get(barrel),
                    Twist = v.Get(twist),
                    Schools = v.Get(schools),
                    WornBelow = v.Get(worn),
                    Basis = v.Get(basis),
                };
            }
        );

    private static bool IsBelow(DualPrint? lower, DualPrint? upper) =>
        lower is null || upper is null || Systems.All(system => lower.In(system) < upper.In(system));

    private static bool IsNotAbove(DualPrint? lower, DualPrint? upper) =>
        lower is null || upper is null || lower.Governing.Value <= upper.Governing.Value;

    private static readonly UnitSystem[] Systems = [UnitSystem.Metric, UnitSystem.Inch];
}
