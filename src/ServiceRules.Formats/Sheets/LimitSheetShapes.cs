using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Vocabulary;
using ServiceRules.Rules.Model;

namespace ServiceRules.Formats.Sheets;

/// <summary>Limits and geometry of one kind of unit.</summary>
internal static class LimitSheetShapes
{
    public static ObjectShape<LimitSheet> Sheet { get; } =
        Shape.Object<LimitSheet>(
            "limit-sheet",
            "Limits and geometry of one kind of unit, transcribed by the owner from the unit's own manual.",
            o =>
            {
                var id = o.Required("id", Terms.NewId<LimitSheet>("limit sheet"), "its identity", s => s.Id);
                var title = o.Required("title", Terms.Title, "reel diameter, blades, width", s => s.Title);
                var basis = o.Required(
                    "basis",
                    SharedShapes.Basis,
                    "what the sheet as a whole rests on",
                    s => s.Basis
                );
                var diameter = o.Required(
                    "reelDiameter",
                    SharedShapes.PrintedSize,
                    "nominal reel diameter",
                    s => s.ReelDiameter
                );
                var blades = o.Required("blades", Shape.Whole(2, 30), "number of reel blades", s => s.Blades);
                var width = o.Required(
                    "width",
                    SharedShapes.PrintedSize,
                    "width of the bedknife between the blade ends",
                    s => s.Width
                );
                var bedknife = o.Required(
                    "bedknife",
                    Choices.Bedknife,
                    "whether the bedknife or the reel moves to set the clearance",
                    s => s.Bedknife
                );
                var frontRoller = o.Optional(
                    "frontRollerDiameter",
                    SharedShapes.PrintedSize,
                    "diameter of the front roller",
                    s => s.FrontRollerDiameter
                );
                var rearRoller = o.Optional(
                    "rearRollerDiameter",
                    SharedShapes.PrintedSize,
                    "diameter of the rear roller",
                    s => s.RearRollerDiameter
                );
                var wear = o.Optional(
                    "wear",
                    WearShapes.Rates,
                    "how fast its parts are used up, by the site's own figures",
                    s => s.Wear
                );
                var adjusters = o.Required(
                    "adjusters",
                    Shape.List(AdjusterShapes.Adjuster, 1, FormatLimits.Words),
                    "what can be turned",
                    s => s.Adjusters
                );
                var quantities = o.Required(
                    "quantities",
                    Shape.List(QuantityLimitShapes.Limit, 1, FormatLimits.Words),
                    "what is asked of each quantity",
                    s => s.Quantities
                );
                var leftOut = o.Items(
                    "leftOut",
                    QuantityLimitShapes.LeftOut,
                    FormatLimits.Words,
                    "of which quantities it says nothing on purpose, and why: rules on them never reach this kind of unit",
                    s => s.LeftOut
                );
                var procedure = o.Items(
                    "procedure",
                    Terms.Sentence,
                    FormatLimits.Lines,
                    "the procedure that the sheet teaches, in order",
                    s => s.Procedure
                );
                var cautions = o.Items(
                    "cautions",
                    Terms.Sentence,
                    FormatLimits.Lines,
                    "cautions of the sheet",
                    s => s.Cautions
                );
                o.Check(
                    v => AreDistinct(v.Get(adjusters).Select(adjuster => adjuster.Kind)),
                    adjusters,
                    "an adjuster stands twice",
                    "each adjuster once"
                );
                o.Check(
                    v => AreDistinct(v.Get(quantities).Select(limit => limit.Quantity)),
                    quantities,
                    "a quantity stands twice",
                    "each quantity once"
                );
                o.Check(
                    v =>
                        AreDistinct(
                            v.Get(leftOut)
                                .Select(one => one.Quantity)
                                .Concat(v.Get(quantities).Select(limit => limit.Quantity))
                        ),
                    leftOut,
                    "a quantity that is left out stands twice, or among `quantities`",
                    "each quantity once, in one of the two"
                );
                o.Check(
                    v => StationsLieWithin(v.Get(quantities), v.Get(width)),
                    quantities,
                    "a gauging station lies beyond the right end",
                    "stations from 0 to `width`"
                );
                return v => new LimitSheet
                {
                    Id = v.Get(id),
                    Title = v.Get(title),
                    Basis = v.Get(basis),
                    ReelDiameter = v.Get(diameter),
                    Blades = v.Get(blades),
                    Width = v.Get(width),
                    Bedknife = v.Get(bedknife),
                    FrontRollerDiameter = v.Get(frontRoller),
                    RearRollerDiameter = v.Get(rearRoller),
                    Wear = v.Get(wear),
                    Adjusters = v.Get(adjusters),
                    Quantities = v.Get(quantities),
                    LeftOut = v.Get(leftOut),
                    Procedure = v.Get(procedure),
                    Cautions = v.Get(cautions),
                };
            }
        );

    private static bool AreDistinct<T>(IEnumerable<T> all)
    {
        HashSet<T> seen = [];
        return all.All(seen.Add);
    }

    private static bool StationsLieWithin(ImmutableArray<QuantityLimit> quantities, DualPrint width) =>
        quantities.All(limit =>
            limit.RightStation is not { } station || station.Value <= width.In(station.System)
        );
}
