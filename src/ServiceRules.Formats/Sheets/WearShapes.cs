using ServiceRules.Domain.Quantities;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Vocabulary;
using ServiceRules.Rules.Model;

namespace ServiceRules.Formats.Sheets;

/// <summary>How fast the parts of a kind of unit are used up.</summary>
internal static class WearShapes
{
    private static readonly JsonShape<Angle> Relief = Terms.Angle.AsParsed(
        angle =>
            Terms.Kept(
                angle,
                angle.Degrees is > 0m and < 90m,
                "is no relief",
                "an angle between 0 and 90 deg, from the tangent"
            ),
        angle => angle
    );

    public static ObjectShape<WearRates> Rates { get; } =
        Shape.Object<WearRates>(
            "wear-rates",
            "How fast the parts of one kind of unit are used up: the site's own figures, for none are published.",
            o =>
            {
                var perGrind = o.Optional(
                    "reelPerGrind",
                    SharedShapes.PrintedSize,
                    "reel diameter lost from one grind to the next, wear between them included",
                    w => w.ReelPerGrind
                );
                var perHour = o.Optional(
                    "reelPerHour",
                    Terms.WearRate,
                    "reel diameter lost in an hour of mowing",
                    w => w.ReelPerHour
                );
                var perFacing = o.Optional(
                    "lipPerFacing",
                    SharedShapes.PrintedSize,
                    "bedknife lip lost in one grind of its top face",
                    w => w.LipPerFacing
                );
                var relief = o.Optional(
                    "reliefAngle",
                    Relief,
                    "relief angle behind the land, from the tangent",
                    w => w.ReliefAngle
                );
                var basis = o.Required(
                    "basis",
                    SharedShapes.Basis,
                    "what these figures rest on",
                    w => w.Basis
                );
                return v => new WearRates
                {
                    ReelPerGrind = v.Get(perGrind),
                    ReelPerHour = v.Get(perHour),
                    LipPerFacing = v.Get(perFacing),
                    ReliefAngle = v.Get(relief),
                    Basis = v.Get(basis),
                };
            }
        );
}
