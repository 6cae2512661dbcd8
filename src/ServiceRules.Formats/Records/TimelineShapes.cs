using ServiceRules.Domain;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Vocabulary;

namespace ServiceRules.Formats.Records;

/// <summary>The make-safe and work events of a job.</summary>
internal static class TimelineShapes
{
    private const string AllSources = "all";
    private const string GroupBox = "group_box";

    internal static readonly JsonShape<SourceReference> Source = Terms.Identity.As<string, SourceReference>(
        text =>
            text switch
            {
                AllSources => new SourceReference.All(),
                GroupBox => new SourceReference.GroupBox(),
                _ => new SourceReference.One(new Id<EnergySource>(text)),
            },
        source =>
            source switch
            {
                SourceReference.One one => one.Source.Text,
                SourceReference.GroupBox => GroupBox,
                _ => AllSources,
            }
    );

    public static ObjectShape<TimelineEvent> Event { get; } =
        Shape.Object<TimelineEvent>(
            "timeline-event",
            "One time-stamped fact of the make-safe timeline.",
            o =>
            {
                var kind = o.Required("event", Choices.Event, "what happened", e => e.Kind);
                var at = o.Required(
                    "at",
                    Terms.Time,
                    "when; with its offset wherever it is known",
                    e => e.At
                );
                var actor = o.Required("by", RecordNames.KnownPerson, "who did it", e => e.Actor);
                var source = o.Optional(
                    "source",
                    Source,
                    "which energy source of the machine's procedure, `all` of them, or the `group_box`",
                    e => e.Source
                );
                var device = o.Optional("lock", Terms.Id<LockDevice>(), "which lock or tag", e => e.Lock);
                var position = o.Optional(
                    "position",
                    Shape.Choice<IsolatorPosition>("Position of an isolator."),
                    "position in which the isolator was left",
                    e => e.Position
                );
                var isolator = o.Optional(
                    "isolator",
                    Terms.Title,
                    "kind of isolator, or of the device",
                    e => e.Isolator
                );
                var pressure = o.Optional(
                    "pressure",
                    Terms.Pressure,
                    "a pressure read as proof",
                    e => e.Pressure
                );
                var method = o.Optional("method", Terms.Sentence, "how it was done", e => e.Method);
                var reason = o.Optional(
                    "reason",
                    Terms.Sentence,
                    "why, for a temporary removal",
                    e => e.Reason
                );
                var exception = o.Optional(
                    "exception",
                    Terms.Sentence,
                    "documented exception relied on",
                    e => e.Exception
                );
                var atLockPoint = o.Defaulted(
                    "atLockPoint",
                    Shape.Flag,
                    false,
                    "whether a tag hangs where the lock would",
                    e => e.AtLockPoint
                );
                var others = o.Items(
                    "others",
                    RecordNames.KnownPerson,
                    FormatLimits.JobParts,
                    "other people concerned: told, briefed, accounted for, assigned, standing at the stop",
                    e => e.Others
                );
                var claim = o.Optional(
                    "claim",
                    ClaimShapes.Claim,
                    "what is said for an exemption",
                    e => e.Claim
                );
                var measures = o.Items(
                    "measures",
                    Choices.Measure,
                    FormatLimits.Words,
                    "measures in place for an excepted or energised task",
                    e => e.Measures
                );
                var count = o.Optional(
                    "count",
                    Shape.Whole(1, FormatLimits.JobParts),
                    "how many people the one in charge of a group answers for",
                    e => e.Count
                );
                var crews = o.Items(
                    "crews",
                    Terms.Identity,
                    FormatLimits.JobParts,
                    "crews that a coordinator brings together",
                    e => e.Crews
                );
                var extra = o.Optional(
                    "extraMeasure",
                    Terms.Sentence,
                    "what is done beside hanging a tag so that it protects as a lock would",
                    e => e.ExtraMeasure
                );
                var task = o.Optional(
                    "task",
                    Choices.Task,
                    "which task a run of the machine is for",
                    e => e.Task
                );
                var procedure = o.Optional(
                    "procedure",
                    Terms.Identity,
                    "the procedure that was gone through",
                    e => e.Procedure
                );
                var mark = o.Defaulted(
                    "mark",
                    Shape.Choice<EntryMark>("How an entry came about."),
                    EntryMark.AtTheTime,
                    "how the entry came about; late and transcribed entries say so",
                    e => e.Mark
                );
                var eventId = o.Optional(
                    "eventId",
                    Terms.Identity,
                    "the entry's own identity",
                    e => e.EventId
                );
                var recorder = o.Optional("device", Terms.Identity, "the recording device", e => e.Device);
                var sequence = o.Optional(
                    "sequence",
                    Shape.Whole(0, int.MaxValue),
                    "counter of the recording device",
                    e => e.Sequence
                );
                var received = o.Optional(
                    "receivedAt",
                    Terms.Time,
                    "when the entry was received, where that is known",
                    e => e.ReceivedAt
                );
                o.NeededFor(kind, Words(EventVocabulary.NeedsSource), source);
                o.NeededFor(kind, Words(EventVocabulary.NeedsLock), device);
                o.NeededFor(kind, Words(EventVocabulary.NeedsClaim), claim);
                o.Needs(sequence, recorder);
                o.Check(
                    v =>
                        v.Get(kind) != TimelineEventKind.SourceAdded
                        || v.Get(source) is not (SourceReference.All or SourceReference.GroupBox),
                    source,
                    "what comes to a machine is one source",
                    "the one source by its name, such as `groomer_motor`"
                );
                foreach (
                    var (member, slot) in new (EventMember, MemberSlot)[]
                    {
                        (EventMember.Source, source),
                        (EventMember.Lock, device),
                        (EventMember.Position, position),
                        (EventMember.Isolator, isolator),
                        (EventMember.Pressure, pressure),
                        (EventMember.Exception, exception),
                        (EventMember.AtLockPoint, atLockPoint),
                        (EventMember.ExtraMeasure, extra),
                        (EventMember.Claim, claim),
                        (EventMember.Measures, measures),
                        (EventMember.Count, count),
                        (EventMember.Others, others),
                        (EventMember.Crews, crews),
                        (EventMember.Task, task),
                        (EventMember.Procedure, procedure),
                    }
                )
                {
                    o.OnlyFor(kind, Words(one => EventVocabulary.MayHave(one, member)), slot);
                }

                return v => new TimelineEvent
                {
                    Kind = v.Get(kind),
                    At = v.Get(at),
                    Actor = v.Get(actor),
                    Source = v.Get(source),
                    Lock = v.Get(device),
                    Position = v.Get(position),
                    Isolator = v.Get(isolator),
                    Pressure = v.Get(pressure),
                    Method = v.Get(method),
                    Reason = v.Get(reason),
                    Exception = v.Get(exception),
                    AtLockPoint = v.Get(atLockPoint),
                    Others = v.Get(others),
                    Claim = v.Get(claim),
                    Measures = v.Get(measures),
                    Count = v.Get(count),
                    Crews = v.Get(crews),
                    ExtraMeasure = v.Get(extra),
                    Task = v.Get(task),
                    Procedure = v.Get(procedure),
                    Mark = v.Get(mark),
                    EventId = v.Get(eventId),
                    Device = v.Get(recorder),
                    Sequence = v.Get(sequence),
                    ReceivedAt = v.Get(received),
                };
            }
        );

    private static IEnumerable<string> Words(Func<TimelineEventKind, bool> needed) =>
        Enum.GetValues<TimelineEventKind>().Where(needed).Select(Choices.WordOf);
}
