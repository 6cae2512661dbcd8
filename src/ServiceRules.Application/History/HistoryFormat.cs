using ServiceRules.Domain.Records;
using ServiceRules.Formats.Json;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Vocabulary;

namespace ServiceRules.Application.History;

/// <summary>The history as JSON.</summary>
public static class HistoryFormat
{
    internal const int Many = 1_000_000;

    private static readonly ObjectShape<HistoryDocument.Action> Action = Shape.Object<HistoryDocument.Action>(
        "history-action",
        "Something that needs somebody.",
        o =>
        {
            var slotKind = o.Required(
                "kind",
                Shape.Choice<ActionKind>("What needs somebody."),
                "what",
                x => x.Kind
            );
            var slotDue = o.Optional("due", Terms.Day, "the day; left out: now", x => x.Due);
            var slotEarliest = o.Optional("earliest", Terms.Day, "the earliest day", x => x.Earliest);
            var slotUnit = o.Optional("unit", Terms.Id<UnitWork>(), "the unit", x => x.Unit);
            var slotMachine = o.Optional("machine", Terms.Id<MachineVisit>(), "its machine", x => x.Machine);
            var slotQuantity = o.Optional(
                "quantity",
                Choices.Quantity,
                "the size it is about",
                x => x.Quantity
            );
            var slotAdjuster = o.Optional(
                "adjuster",
                Choices.Adjuster,
                "the adjuster it is about",
                x => x.Adjuster
            );
            var slotGauges = o.Items(
                "gauges",
                Terms.Id<Instrument>(),
                Many,
                "the gauges it is about",
                x => x.Gauges
            );
            return v =>
                new(
                    v.Get(slotKind),
                    v.Get(slotDue),
                    v.Get(slotEarliest),
                    v.Get(slotUnit),
                    v.Get(slotMachine),
                    v.Get(slotQuantity),
                    v.Get(slotAdjuster),
                    v.Get(slotGauges)
                );
        }
    );

    private static readonly ObjectShape<HistoryDocument.Offset> Offset = Shape.Object<HistoryDocument.Offset>(
        "history-offset",
        "How a machine cuts off its bench height. Derived.",
        o =>
        {
            var slotMachine = o.Required("machine", Terms.Id<MachineVisit>(), "the machine", x => x.Machine);
            var slotArea = o.Optional("area", Shape.Line(FormatLimits.Title), "the area", x => x.Area);
            var slotSeason = o.Required("season", Shape.Whole(1990, 2200), "the year", x => x.Season);
            var slotPairs = o.Required("pairs", Shape.Whole(0, Many), "pairs", x => x.Pairs);
            var slotMedian = o.Optional(
                "median",
                Terms.ExactLength,
                "height on the turf less bench height",
                x => x.Median
            );
            var slotLeast = o.Optional("least", Terms.ExactLength, "least of a pair", x => x.Least);
            var slotGreatest = o.Optional(
                "greatest",
                Terms.ExactLength,
                "greatest of a pair",
                x => x.Greatest
            );
            return v =>
                new(
                    v.Get(slotMachine),
                    v.Get(slotArea),
                    v.Get(slotSeason),
                    v.Get(slotPairs),
                    v.Get(slotMedian),
                    v.Get(slotLeast),
                    v.Get(slotGreatest)
                );
        }
    );

    private static readonly ObjectShape<HistoryDocument.Check> Check = Shape.Object<HistoryDocument.Check>(
        "history-check",
        "A zero check that came out off.",
        o =>
        {
            var slotRecord = o.Required("record", Terms.Id<ServiceRecord>(), "the record", x => x.Record);
            var slotDate = o.Required("date", Terms.Day, "its day", x => x.Date);
            var slotError = o.Required("error", Terms.Length, "what it came out", x => x.Error);
            return v => new(v.Get(slotRecord), v.Get(slotDate), v.Get(slotError));
        }
    );

    private static readonly ObjectShape<HistoryDocument.Gauge> Gauge = Shape.Object<HistoryDocument.Gauge>(
        "history-gauge",
        "The zero checks of a gauge.",
        o =>
        {
            var slotInstrument = o.Required(
                "instrument",
                Terms.Id<Instrument>(),
                "which gauge",
                x => x.Instrument
            );
            var slotKind = o.Required(
                "kind",
                Shape.Choice<InstrumentKind>("Kinds of instrument."),
                "what it is",
                x => x.Kind
            );
            var slotChecks = o.Required("checks", Shape.Whole(0, Many), "zero checks", x => x.Checks);
            var slotFrom = o.Required("from", Terms.Day, "first", x => x.From);
            var slotUntil = o.Required("until", Terms.Day, "last", x => x.Until);
            var slotOff = o.Items("off", Check, Many, "those off by more than a step", x => x.Off);
            var slotDrift = o.Optional(
                "drift",
                Terms.ExactLength,
                "how far the zero moved, where it did",
                x => x.Drift
            );
            return v =>
                new(
                    v.Get(slotInstrument),
                    v.Get(slotKind),
                    v.Get(slotChecks),
                    v.Get(slotFrom),
                    v.Get(slotUntil),
                    v.Get(slotOff),
                    v.Get(slotDrift)
                );
        }
    );

    private static readonly ObjectShape<HistoryDocument.GaugePair> GaugePair =
        Shape.Object<HistoryDocument.GaugePair>(
            "history-gauge-pair",
            "Two gauges that read the same places.",
            o =>
            {
                var slotQuantity = o.Required("quantity", Choices.Quantity, "what", x => x.Quantity);
                var slotFirst = o.Required("first", Terms.Id<Instrument>(), "one gauge", x => x.First);
                var slotSecond = o.Required("second", Terms.Id<Instrument>(), "the other", x => x.Second);
                var slotPairs = o.Required("pairs", Shape.Whole(0, Many), "times", x => x.Pairs);
                var slotDifference = o.Required(
                    "difference",
                    Terms.ExactLength,
                    "mean of the first less the second",
                    x => x.Difference
                );
                var slotWorstEn = o.Required(
                    "worstEn",
                    Shape.Number(0m, Many),
                    "largest normalised error",
                    x => x.WorstEn
                );
                var slotDisagreeing = o.Required(
                    "disagreeing",
                    Shape.Whole(0, Many),
                    "times they did not agree",
                    x => x.Disagreeing
                );
                var slotIsTheGauge = o.Required(
                    "isTheGauge",
                    Shape.Flag,
                    "on several units: it is a gauge",
                    x => x.IsTheGauge
                );
                return v =>
                    new(
                        v.Get(slotQuantity),
                        v.Get(slotFirst),
                        v.Get(slotSecond),
                        v.Get(slotPairs),
                        v.Get(slotDifference),
                        v.Get(slotWorstEn),
                        v.Get(slotDisagreeing),
                        v.Get(slotIsTheGauge)
                    );
            }
        );

    private static readonly ObjectShape<HistoryDocument.Process> Process =
        Shape.Object<HistoryDocument.Process>(
            "history-process",
            "What the shop leaves.",
            o =>
            {
                var slotRules = o.Items("rules", Terms.Identity, Many, "the rules", x => x.Rules);
                var slotSheet = o.Required("sheet", Terms.Identity, "the kind of unit", x => x.Sheet);
                var slotQuantity = o.Required("quantity", Choices.Quantity, "the quantity", x => x.Quantity);
                var slotReadings = o.Required("readings", Shape.Whole(0, Many), "values", x => x.Readings);
                var slotIsFromMiddle = o.Required(
                    "isFromMiddle",
                    Shape.Flag,
                    "counted from the middle of the limits",
                    x => x.IsFromMiddle
                );
                var slotMean = o.Required("mean", Terms.ExactLength, "mean", x => x.Mean);
                var slotStandardDeviation = o.Optional(
                    "standardDeviation",
                    Terms.ExactLength,
                    "standard deviation",
                    x => x.StandardDeviation
                );
                var slotDrifts = o.Optional("drifts", Shape.Flag, "values follow one another", x => x.Drifts);
                var slotIsGamma = o.Optional(
                    "isGamma",
                    Shape.Flag,
                    "taken as gamma-distributed, else as normal",
                    x => x.IsGamma
                );
                var slotLower = o.Optional("lower", Terms.ExactLength, "lower limit", x => x.Lower);
                var slotUpper = o.Optional("upper", Terms.ExactLength, "upper limit", x => x.Upper);
                var slotOutAmongPassed = o.Optional(
                    "outAmongPassed",
                    Shape.Number(0m, 1m),
                    "share out of what is passed",
                    x => x.OutAmongAccepted
                );
                var slotConsumersRisk = o.Optional(
                    "consumersRisk",
                    Shape.Number(0m, 1m),
                    "passed though out, of all",
                    x => x.Consumers
                );
                var slotProducersRisk = o.Optional(
                    "producersRisk",
                    Shape.Number(0m, 1m),
                    "held back though good, of all",
                    x => x.Producers
                );
                return v =>
                    new(
                        v.Get(slotRules),
                        v.Get(slotSheet),
                        v.Get(slotQuantity),
                        v.Get(slotReadings),
                        v.Get(slotIsFromMiddle),
                        v.Get(slotMean),
                        v.Get(slotStandardDeviation),
                        v.Get(slotDrifts),
                        v.Get(slotIsGamma),
                        v.Get(slotLower),
                        v.Get(slotUpper),
                        v.Get(slotOutAmongPassed),
                        v.Get(slotConsumersRisk),
                        v.Get(slotProducersRisk)
                    );
            }
        );

    private static readonly ObjectShape<HistoryDocument.Count> Files = Shape.Object<HistoryDocument.Count>(
        "history-files",
        "Files behind it.",
        o =>
        {
            var slotRecords = o.Required(
                "records",
                Shape.Whole(0, Many),
                "different records",
                x => x.Records
            );
            var slotRepeated = o.Required("repeated", Shape.Whole(0, Many), "met twice", x => x.Repeated);
            var slotSuperseded = o.Required(
                "superseded",
                Shape.Whole(0, Many),
                "earlier stages",
                x => x.Superseded
            );
            var slotUnusable = o.Required(
                "unusable",
                Shape.Whole(0, Many),
                "files that could not be used",
                x => x.Unusable
            );
            return v =>
                new(v.Get(slotRecords), v.Get(slotRepeated), v.Get(slotSuperseded), v.Get(slotUnusable));
        }
    );

    private static readonly ObjectShape<HistoryDocument> Root = Shape.Object<HistoryDocument>(
        "unit-history",
        "What many records tell together.",
        o =>
        {
            var slotFrom = o.Required("from", Terms.Day, "day of the first record", x => x.From);
            var slotThrough = o.Required(
                "through",
                Terms.Day,
                "day of the last: all is reckoned from it",
                x => x.Through
            );
            var slotFiles = o.Required("files", Files, "files behind it", x => x.Files);
            var slotActions = o.Items(
                "actions",
                Action,
                Many,
                "what needs somebody, soonest first",
                x => x.Actions
            );
            var slotUnits = o.Items("units", HistoryUnitShapes.OneUnit, Many, "units", x => x.Units);
            var slotOffsets = o.Items("offsets", Offset, Many, "height on the turf", x => x.Offsets);
            var slotGauges = o.Items("gauges", Gauge, Many, "zero checks", x => x.Gauges);
            var slotGaugePairs = o.Items(
                "gaugePairs",
                GaugePair,
                Many,
                "gauges against one another",
                x => x.GaugePairs
            );
            var slotProcesses = o.Items("processes", Process, Many, "what the shop leaves", x => x.Processes);
            return v =>
                new(
                    v.Get(slotFrom),
                    v.Get(slotThrough),
                    v.Get(slotFiles),
                    v.Get(slotActions),
                    v.Get(slotUnits),
                    v.Get(slotOffsets),
                    v.Get(slotGauges),
                    v.Get(slotGaugePairs),
                    v.Get(slotProcesses)
                );
        }
    );

    /// <summary>The version that is written today.</summary>
    public static DocumentFormat<HistoryDocument> Current { get; } =
        new("unit-history", 1, ReadLimits.Library, Root);
}
