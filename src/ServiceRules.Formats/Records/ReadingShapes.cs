using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Vocabulary;

namespace ServiceRules.Formats.Records;

/// <summary>One observation of a quantity at a station.</summary>
internal static class ReadingShapes
{
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
        Terms.Feeler.As(feeler => ImmutableArray.Create(feeler), stack => stack[0]),
        Shape.List(Terms.Feeler, 1, FormatLimits.FeelerStack),
        stack => stack.Length == 1
    );

    public static ObjectShape<Reading> Reading { get; } =
        Shape.Object<Reading>(
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
                    "a length read off an instrument; of `front-roller` how far the roller stands from the cutting edge: plus is further from it, of a gauge set to zero somewhere on the roller too",
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
                var withdrawn = o.Optional(
                    "withdrawn",
                    Terms.Note,
                    "why it is taken back, where it was a slip: it then counts for nothing, and is told",
                    r => r.Withdrawn
                );
                var at = o.Optional("at", Terms.Time, BenchShapes.When, r => r.At);
                var by = o.Optional("by", RecordNames.KnownPerson, BenchShapes.Who, r => r.By);
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
                    v =>
                        v.Get(value) is not { } length
                        || ObservationForms.IsPossible(v.Get(quantity), length),
                    value,
                    "this value is impossible",
                    "at most 5 m, and not negative unless it is read at the front roller"
                );
                o.Check(
                    v => v.Get(withdrawn) is null || v.Get(condition) is null,
                    withdrawn,
                    "what was seen is not taken back",
                    "`withdrawn` beside a length, an angle, a feeler, contact or paper; a condition is looked at again"
                );
                return v => new Reading
                {
                    Quantity = v.Get(quantity),
                    Station = v.Get(station),
                    Blade = v.Get(blade),
                    Phase = v.Get(phase),
                    Observed = Observed(v),
                    Instrument = v.Get(with),
                    Withdrawn = v.Get(withdrawn),
                    At = v.Get(at),
                    By = v.Get(by),
                };
            }
        );

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
