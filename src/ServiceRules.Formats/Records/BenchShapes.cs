using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Vocabulary;

namespace ServiceRules.Formats.Records;

/// <summary>The bench log of a unit: readings, adjustments, grinding and parts, told apart by their first member.</summary>
internal static class BenchShapes
{
    private const string When = "when, if it was noted";
    private const string Who = "by whom, where more than one person performs the job";
    private const string StationForms =
        "`left`, `middle`, `right`, or a distance from the left end such as `51 mm`";

    private static readonly JsonShape<Station> StationText = Shape.Read(
        ReadStation,
        PrintStation,
        @"left|middle|right|[0-9][0-9./ ]* (mm|\u00B5m|\u03BCm|um|in|thou)",
        StationForms,
        "left",
        "51 mm"
    );

    private static readonly JsonShape<ImmutableArray<PrintedLength>> Feelers = Shape.Either(
        Terms.Size.As(feeler => ImmutableArray.Create(feeler), stack => stack[0]),
        Shape.List(Terms.Size, 1, FormatLimits.FeelerStack),
        stack => stack.Length == 1
    );

    private static readonly ObjectShape<Reading> ReadingObject = Shape.Object<Reading>(
        "reading",
        "One observation of a quantity.",
        o =>
        {
            var quantity = o.Required("read", Choices.Quantity, "what was read", r => r.Quantity);
            var station = o.Optional(
                "station",
                StationText,
                "where along the width; left out for one place or the whole width",
                r => r.Station
            );
            var blade = o.Optional(
                "blade",
                Shape.Whole(1, 30),
                "which reel blade, counted from 1",
                r => r.Blade
            );
            var phase = o.Optional(
                "phase",
                Shape.Choice<ReadingPhase>("When a reading was taken relative to the work."),
                "found, between or left; left out: told from what was turned before and after",
                r => r.Phase
            );
            var value = o.Optional(
                "value",
                Terms.Length,
                "a length read off an instrument",
                r => (r.Observed as Observation.Measured)?.Value
            );
            var angle = o.Optional(
                "angle",
                Terms.Angle,
                "an angle read off an instrument",
                r => (r.Observed as Observation.MeasuredAngle)?.Value
            );
            var feelers = o.Optional(
                "feeler",
                Feelers,
                "the feeler tried, or a stack of them, thinnest first",
                r => (r.Observed as Observation.FeelerTest)?.Feelers
            );
            var passes = o.Optional(
                "passes",
                Shape.Flag,
                "whether the feeler passes",
                r => (r.Observed as Observation.FeelerTest)?.Passes
            );
            var contact = o.Optional(
                "contact",
                Shape.Choice<ContactState>(
                    "Contact as heard and felt when the reel is turned slowly backwards by hand."
                ),
                "contact over the width, by ear and hand",
                r => (r.Observed as Observation.Contact)?.State
            );
            var paper = o.Optional(
                "paper",
                Shape.Choice<PaperResult>("What a paper strip did between a blade and the bedknife."),
                "what a paper strip did",
                r => (r.Observed as Observation.Paper)?.Result
            );
            var condition = o.Optional(
                "condition",
                Choices.Condition,
                "a condition by eye or hand",
                r => (r.Observed as Observation.Seen)?.Condition
            );
            var with = o.Optional(
                "with",
                RecordNames.KnownInstrument,
                "the instrument used",
                r => r.Instrument
            );
            var at = o.Optional("at", Terms.Time, When, r => r.At);
            var by = o.Optional("by", RecordNames.KnownPerson, Who, r => r.By);
            o.ExactlyOne(value, angle, feelers, contact, paper, condition);
            o.Needs(feelers, passes);
            o.Needs(passes, feelers);
            Observation Observed(MemberValues v) =>
                v.Get(value) is { } length ? new Observation.Measured(length)
                : v.Get(angle) is { } degrees ? new Observation.MeasuredAngle(degrees)
                : v.Get(feelers) is { } stack ? new Observation.FeelerTest(stack, v.Get(passes) ?? false)
                : v.Get(contact) is { } state ? new Observation.Contact(state)
                : v.Get(paper) is { } result ? new Observation.Paper(result)
                : new Observation.Seen(v.Get(condition) ?? Condition.Faulty);
            o.Check(
                v => ObservationForms.Suits(v.Get(quantity), Observed(v)),
                quantity,
                "this quantity cannot be observed so",
                ObservationForms.Accepted
            );
            o.Check(
                v => v.Get(value) is not { } length || ObservationForms.IsPossible(v.Get(quantity), length),
                value,
                "this value is impossible",
                "at most 5 m, and not negative unless it is read at the front roller"
            );
            return v => new Reading
            {
                Quantity = v.Get(quantity),
                Station = v.Get(station),
                Blade = v.Get(blade),
                Phase = v.Get(phase),
                Observed = Observed(v),
                Instrument = v.Get(with),
                At = v.Get(at),
                By = v.Get(by),
            };
        }
    );

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
                "which way: open or close a gap, raise or lower a height",
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
            Shape.Keyed<BenchEntry, Reading>("read", ReadingObject),
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

    private static Parsed<Station> ReadStation(string text) =>
        text switch
        {
            "left" => Parsed<Station>.Of(new Station.Named(StationName.Left)),
            "middle" => Parsed<Station>.Of(new Station.Named(StationName.Middle)),
            "right" => Parsed<Station>.Of(new Station.Named(StationName.Right)),
            _ => PrintedLength.Parse(text).TryGet(out PrintedLength? length, out ParseFailure? failure)
                ? Terms.Kept<Station>(
                    new Station.AtDistance(length),
                    length.Value >= Length.Zero,
                    "lies left of the left end",
                    StationForms
                )
                : Parsed<Station>.Refused(failure with { Accepted = StationForms }),
        };

    private static string PrintStation(Station station) =>
        station switch
        {
            Station.Named { Name: StationName.Left } => "left",
            Station.Named { Name: StationName.Middle } => "middle",
            Station.Named => "right",
            Station.AtDistance { FromLeft: var length } => length.ToString(),
            _ => throw new InvalidOperationException("a station is named or at a distance"),
        };
}
