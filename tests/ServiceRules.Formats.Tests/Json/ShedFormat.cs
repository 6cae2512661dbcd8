using ServiceRules.Domain.Quantities;
using ServiceRules.Formats.Json;
using ServiceRules.Formats.Json.Shapes;

namespace ServiceRules.Formats.Tests.Json;

internal static class ShedFormat
{
    public const string Valid = """
        {
          "format": "shed/1",
          "id": "north-shed",
          "mood": "busy",
          "share": 0.25,
          "first": 2,
          "last": 9,
          "gauges": [
            { "id": "g1", "thickness": "0.025 mm" },
            { "id": "g2", "thickness": "1/16 in", "owner": "tech-01" }
          ],
          "notes": [
            { "kind": "seen", "gauge": "g2", "count": 3 },
            { "words": "kept dry, 20 °C", "kind": "said" }
          ],
          "hooks": { "left": 1, "right": 2 },
          "remark": "two\nlines"
        }
        """;

    private static readonly JsonShape<string> Name = Shape.Text(
        1,
        20,
        "[a-z][a-z0-9-]*",
        "a small letter, then small letters, digits or hyphens",
        "g1"
    );

    private static readonly JsonShape<PrintedLength> Thickness = Shape.Read(
        PrintedLength.Parse,
        length => length.ToString(),
        @"-?[0-9][0-9./ ]* ?[a-zµμ]+",
        "a length with its unit",
        "0.025 mm"
    );

    private static readonly ObjectShape<Gauge> GaugeShape = Shape.Object<Gauge>(
        "gauge",
        "One gauge.",
        o =>
        {
            var id = o.Required("id", Name.Declares("gauge", name => name), "the gauge's name", g => g.Id);
            var thickness = o.Required("thickness", Thickness, "how thick it is", g => g.Thickness);
            var owner = o.Optional("owner", Name, "whose it is", g => g.Owner);
            return v => new Gauge(v.Get(id), v.Get(thickness), v.Get(owner));
        }
    );

    private static readonly ObjectShape<Note.Seen> SeenShape = Shape.Object<Note.Seen>(
        "seen",
        "Something counted.",
        o =>
        {
            var gauge = o.Required(
                "gauge",
                Name.RefersTo("gauge", name => name),
                "which gauge",
                n => n.Gauge
            );
            var count = o.Required("count", Shape.Whole(0, 99), "how many", n => n.Count);
            return v => new Note.Seen(v.Get(gauge), v.Get(count));
        }
    );

    private static readonly ObjectShape<Note.Said> SaidShape = Shape.Object<Note.Said>(
        "said",
        "Something said.",
        o =>
        {
            var words = o.Required("words", Shape.Line(40), "what was said", n => n.Words);
            return v => new Note.Said(v.Get(words));
        }
    );

    private static readonly JsonShape<Note> NoteShape = Shape.Variant(
        "note",
        "A note of some kind.",
        "kind",
        Shape.Case<Note, Note.Seen>("seen", SeenShape),
        Shape.Case<Note, Note.Said>("said", SaidShape)
    );

    private static readonly ObjectShape<Shed> Root = Shape.Object<Shed>(
        "shed",
        "A shed and what hangs in it.",
        o =>
        {
            var id = o.Required("id", Name, "the shed's name", s => s.Id);
            var mood = o.Required(
                "mood",
                Shape.Choice<ShedMood>("How it is there."),
                "how it is",
                s => s.Mood
            );
            var share = o.Optional("share", Shape.Number(0, 1), "how full", s => s.Share);
            var locked = o.Defaulted("locked", Shape.Flag, false, "whether it is locked", s => s.Locked);
            var first = o.Required("first", Shape.Whole(0, 99), "the first hook", s => s.First);
            var last = o.Optional("last", Shape.Whole(0, 99), "the last hook", s => s.Last);
            var gauges = o.Items("gauges", GaugeShape, 5, "what hangs there", s => s.Gauges);
            var notes = o.Required("notes", Shape.List(NoteShape, 1, 4), "what was noted", s => s.Notes);
            var hooks = o.Optional(
                "hooks",
                Shape.Map("[a-z]{1,9}", "1 to 9 small letters", Shape.Whole(0, 99), 3),
                "hooks by side",
                s => s.Hooks
            );
            var remark = o.Optional("remark", Shape.Prose(60), "anything else", s => s.Remark);
            o.Check(
                v => v.Get(last) is not { } end || end >= v.Get(first),
                last,
                "ends before it starts",
                "`first` or more"
            );
            return v => new Shed(
                v.Get(id),
                v.Get(mood),
                v.Get(share),
                v.Get(locked),
                v.Get(first),
                v.Get(last),
                v.Get(gauges),
                v.Get(notes),
                v.Get(hooks),
                v.Get(remark)
            );
        }
    );

    public static DocumentFormat<Shed> Format { get; } = new("shed", 1, new ReadLimits(20_000, 2_000), Root);
}
