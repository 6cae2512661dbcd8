using ServiceRules.Domain.Records;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Vocabulary;

namespace ServiceRules.Formats.Records;

/// <summary>The bench log of a unit: readings, adjustments, grinding and parts, told apart by their first member.</summary>
internal static class BenchShapes
{
    internal const string When = "when, if it was noted";
    internal const string Who = "by whom, where more than one person performs the job";
    private static readonly ObjectShape<Adjustment> AdjustmentObject = Shape.Object<Adjustment>(
        "adjustment",
        "Something was turned or moved.",
        o =>
        {
            var adjuster = o.Required("turn", Choices.Adjuster, "what was turned", a => a.Adjuster);
            var side = o.Required("side", Choices.Side, "on which side", a => a.Side);
            var direction = o.Optional(
                "direction",
                Shape.Choice<AdjustDirection>("Which way something was turned."),
                "which way: open or close a gap, raise or lower a height; of `front-roller`, raise and open take it further from the cutting edge",
                a => a.Direction
            );
            var steps = o.Optional(
                "steps",
                Shape.Whole(1, 200),
                "how many adjuster steps",
                a => (a.Amount as AdjustmentAmount.Steps)?.Count
            );
            var distance = o.Optional(
                "distance",
                Terms.Distance,
                "how far",
                a => (a.Amount as AdjustmentAmount.Distance)?.Value
            );
            var unstated = o.Optional(
                "amount",
                Shape.Word("not-stated"),
                "says that nobody noted how far it was moved",
                a => a.Amount is AdjustmentAmount.NotStated ? true : null
            );
            var at = o.Optional("at", Terms.Time, When, a => a.At);
            var by = o.Optional("by", RecordNames.KnownPerson, Who, a => a.By);
            o.ExactlyOne(steps, distance, unstated);
            o.Needs(steps, direction);
            o.Needs(distance, direction);
            o.Check(
                v => v.Get(direction) is not { } way || TurnsSo(v.Get(adjuster), way),
                direction,
                "this adjuster does not turn so",
                "`open` or `close` for gaps and bearings, `raise` or `lower` for heights"
            );
            return v => new Adjustment
            {
                Adjuster = v.Get(adjuster),
                Side = v.Get(side),
                Direction = v.Get(direction),
                Amount =
                    v.Get(steps) is { } count ? new AdjustmentAmount.Steps(count)
                    : v.Get(distance) is { } far ? new AdjustmentAmount.Distance(far)
                    : new AdjustmentAmount.NotStated(),
                At = v.Get(at),
                By = v.Get(by),
            };
        }
    );

    private static readonly ObjectShape<Grinding> GrindingObject = Shape.Object<Grinding>(
        "grinding",
        "Metal was removed.",
        o =>
        {
            var kind = o.Required(
                "grind",
                Shape.Choice<GrindingKind>("What was ground or lapped."),
                "what was ground",
                g => g.Kind
            );
            var before = o.Optional(
                "before",
                Terms.Size,
                "reel diameter, or lip height, before",
                g => g.Before
            );
            var after = o.Optional("after", Terms.Size, "reel diameter, or lip height, after", g => g.After);
            var at = o.Optional("at", Terms.Time, When, g => g.At);
            var by = o.Optional("by", RecordNames.KnownPerson, Who, g => g.By);
            o.Check(
                v =>
                    v.Get(before) is not { } larger
                    || v.Get(after) is not { } smaller
                    || smaller.Value <= larger.Value,
                after,
                "grinding cannot add metal",
                "`before` or less"
            );
            return v => new Grinding
            {
                Kind = v.Get(kind),
                Before = v.Get(before),
                After = v.Get(after),
                At = v.Get(at),
                By = v.Get(by),
            };
        }
    );

    private static readonly ObjectShape<PartFitted> PartObject = Shape.Object<PartFitted>(
        "part-fitted",
        "A part was fitted.",
        o =>
        {
            var part = o.Required(
                "fit",
                Shape.Choice<PartKind>("A part fitted during the job."),
                "what kind of part",
                p => p.Part
            );
            var identity = o.Optional(
                "identity",
                Terms.Identity,
                "identity of the new part",
                p => p.Identity
            );
            var note = o.Optional("note", Terms.Note, "anything to add", p => p.Note);
            var at = o.Optional("at", Terms.Time, When, p => p.At);
            var by = o.Optional("by", RecordNames.KnownPerson, Who, p => p.By);
            return v => new PartFitted
            {
                Part = v.Get(part),
                Identity = v.Get(identity),
                Note = v.Get(note),
                At = v.Get(at),
                By = v.Get(by),
            };
        }
    );

    public static JsonShape<BenchEntry> Entry { get; } =
        Shape.Keyed(
            "bench-entry",
            "One line of the bench log: `read`, `turn`, `grind` or `fit`.",
            Shape.Keyed<BenchEntry, Reading>("read", ReadingShapes.Reading),
            Shape.Keyed<BenchEntry, Adjustment>("turn", AdjustmentObject),
            Shape.Keyed<BenchEntry, Grinding>("grind", GrindingObject),
            Shape.Keyed<BenchEntry, PartFitted>("fit", PartObject)
        );

    private static bool TurnsSo(AdjusterKind adjuster, AdjustDirection way) =>
        adjuster switch
        {
            AdjusterKind.Clearance or AdjusterKind.Brush or AdjusterKind.Shield or AdjusterKind.Bearings =>
                way is AdjustDirection.Open or AdjustDirection.Close,
            AdjusterKind.Height or AdjusterKind.HeightRange or AdjusterKind.Groomer => way
                is AdjustDirection.Raise
                    or AdjustDirection.Lower,
            _ => true,
        };
}
