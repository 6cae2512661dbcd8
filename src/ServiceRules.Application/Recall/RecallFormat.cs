using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Formats.Json;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Vocabulary;

namespace ServiceRules.Application.Recall;

/// <summary>The recall as JSON.</summary>
public static class RecallFormat
{
    private const int Many = 1_000_000;

    private static readonly ObjectShape<RecallDocument.Stand> Stand = Shape.Object<RecallDocument.Stand>(
        "recall-stand",
        "How a finding stood, or would stand.",
        o =>
        {
            var verdict = o.Required(
                "verdict",
                Shape.Choice<Verdict>("What one requirement comes to."),
                "the verdict",
                s => s.Verdict
            );
            var effect = o.Required(
                "effect",
                Shape.Choice<Effect>("What a finding does to the disposition."),
                "what it does to its subject",
                s => s.Effect
            );
            var statement = o.Required("statement", Terms.Note, "in one sentence", s => s.Statement);
            return v => new(v.Get(verdict), v.Get(effect), v.Get(statement));
        }
    );

    private static readonly JsonShape<RecallAnswer> AnswerWord = Shape.Choice<RecallAnswer>(
        "What becomes of a past verdict."
    );

    private static readonly ObjectShape<RecallDocument.Answer> Answer = Shape.Object<RecallDocument.Answer>(
        "recall-verdict",
        "One past verdict that rests on readings with the gauge.",
        o =>
        {
            var rule = o.Required("rule", Terms.Identity, "the rule", a => a.Rule);
            var subject = o.Required(
                "subject",
                Shape.Line(FormatLimits.Title),
                "`job`, `set`, or `unit/` and the unit",
                a => a.Subject
            );
            var answer = o.Required("answer", AnswerWord, "what becomes of it", a => a.Comes);
            var was = o.Required("was", Stand, "as it was", a => a.Was);
            var wouldBe = o.Required(
                "wouldBe",
                Stand,
                "with the readings corrected; where it cannot be told, as the error would make it",
                a => a.WouldBe
            );
            return v => new(v.Get(rule), v.Get(subject), v.Get(answer), v.Get(was), v.Get(wouldBe));
        }
    );

    private static readonly JsonShape<Disposition> DispositionWord = Shape.Choice<Disposition>(
        "May it go out?"
    );

    private static readonly ObjectShape<RecallDocument.Job> Job = Shape.Object<RecallDocument.Job>(
        "recall-record",
        "One record that names the gauge.",
        o =>
        {
            var record = o.Required("record", Terms.Id<ServiceRecord>(), "which record", j => j.Record);
            var date = o.Required("date", Terms.Day, "its day", j => j.Date);
            var machine = o.Required("machine", Terms.Id<MachineVisit>(), "its machine", j => j.Machine);
            var onTheDay = o.Required(
                "onTheDay",
                Shape.Choice<ErrorOnTheDay>("What is known of the error on a day."),
                "what is known of the error on its day",
                j => j.OnTheDay
            );
            var readings = o.Required(
                "readings",
                Shape.Whole(0, Many),
                "readings with the gauge",
                j => j.Readings
            );
            var was = o.Required("was", DispositionWord, "the job as it was", j => j.Was);
            var wouldBe = o.Required(
                "wouldBe",
                DispositionWord,
                "the job with the readings corrected for the whole error",
                j => j.WouldBe
            );
            var release = o.Required(
                "release",
                AnswerWord,
                "what becomes of its release; a job that was kept in stands",
                j => j.Release
            );
            var verdicts = o.Items(
                "verdicts",
                Answer,
                FormatLimits.Findings,
                "verdicts that rest on the gauge",
                j => j.Verdicts
            );
            return v =>
                new(
                    v.Get(record),
                    v.Get(date),
                    v.Get(machine),
                    v.Get(onTheDay),
                    v.Get(readings),
                    v.Get(was),
                    v.Get(wouldBe),
                    v.Get(release),
                    v.Get(verdicts)
                );
        }
    );

    private static readonly ObjectShape<RecallDocument.Count> Totals = Shape.Object<RecallDocument.Count>(
        "recall-totals",
        "How many of each.",
        o =>
        {
            var files = Number(o, "recordsRead", "different records read", t => t.Files);
            var unusable = Number(o, "unusableFiles", "files that could not be used", t => t.Unusable);
            var outside = Number(
                o,
                "outsideTheTime",
                "records that name the gauge outside the stated time",
                t => t.OutsideTheTime
            );
            var records = Number(o, "records", "records that name the gauge", t => t.Records);
            var stand = Number(o, "stand", "verdicts that stand", t => t.Stand);
            var change = Number(o, "change", "verdicts that change", t => t.Change);
            var untold = Number(
                o,
                "cannotBeTold",
                "verdicts of which it cannot be told",
                t => t.CannotBeTold
            );
            var released = Number(
                o,
                "releasedChange",
                "released jobs that would not have gone out",
                t => t.ReleasedChange
            );
            var maybe = Number(
                o,
                "releasedCannotBeTold",
                "released jobs of which it cannot be told",
                t => t.ReleasedCannotBeTold
            );
            return v =>
                new(
                    v.Get(files),
                    v.Get(unusable),
                    v.Get(outside),
                    v.Get(records),
                    v.Get(stand),
                    v.Get(change),
                    v.Get(untold),
                    v.Get(released),
                    v.Get(maybe)
                );
        }
    );

    private static readonly ObjectShape<RecallDocument> Root = Shape.Object<RecallDocument>(
        "gauge-recall",
        "Past verdicts judged again after a gauge was found out.",
        o =>
        {
            var instrument = o.Required(
                "instrument",
                Terms.Id<Instrument>(),
                "which gauge",
                r => r.Instrument
            );
            var kind = o.Optional(
                "kind",
                Shape.Choice<InstrumentKind>("Kinds of instrument."),
                "what it is",
                r => r.Kind
            );
            var error = o.Required("error", Terms.Length, "reading minus truth", r => r.Error);
            var uncertainty = o.Optional(
                "uncertainty",
                Terms.Size,
                "expanded uncertainty of the error, k = 2",
                r => r.Uncertainty
            );
            var leaf = o.Optional("feeler", Terms.Size, "the one leaf that is wrong", r => r.Leaf);
            var from = o.Optional("from", Terms.Day, "the day it is known to be there from", r => r.From);
            var until = o.Optional("until", Terms.Day, "the last day", r => r.Until);
            var totals = o.Required("totals", Totals, "how many of each", r => r.Totals);
            var records = o.Items("records", Job, Many, "the records, by day", r => r.Records);
            return v =>
                new(
                    v.Get(instrument),
                    v.Get(kind),
                    v.Get(error),
                    v.Get(uncertainty),
                    v.Get(leaf),
                    v.Get(from),
                    v.Get(until),
                    v.Get(totals),
                    v.Get(records)
                );
        }
    );

    /// <summary>The version that is written today.</summary>
    public static DocumentFormat<RecallDocument> Current { get; } =
        new("gauge-recall", 1, ReadLimits.Library, Root);

    private static Slot<int> Number(
        ObjectMembers<RecallDocument.Count> members,
        string name,
        string description,
        Func<RecallDocument.Count, int> get
    ) => members.Required(name, Shape.Whole(0, Many), description, get);
}
