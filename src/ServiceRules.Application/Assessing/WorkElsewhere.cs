using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Application.Assessing;

/// <summary>
/// What one record cannot know of itself: where the others show its locks and people, for as long as its own timeline goes on,
/// and what they show at its machine.
/// </summary>
public sealed class WorkElsewhere
{
    private const string PersonPrefix = "person ";

    private readonly ILookup<string, Stay> stays;
    private readonly ILookup<Domain.Id<MachineVisit>, RecordShown> atMachine;
    private readonly ILookup<Domain.Id<Participant>, RecordShown> ofPerson;
    private readonly SiteZone zone;

    private WorkElsewhere(IReadOnlyCollection<RecordTold> told, SiteZone zone)
    {
        this.zone = zone;
        var shown = told.Select(one => one.Shown).OfType<RecordShown>().ToList();
        atMachine = shown.ToLookup(one => one.Machine);
        ofPerson = shown
            .SelectMany(one =>
                one.Events.Select(entry => entry.Event.Actor).Distinct().Select(who => (who, one))
            )
            .ToLookup(pair => pair.who, pair => pair.one);
        stays = LocksLeft
            .Ended([.. told.SelectMany(one => one.Stays)], shown)
            .ToLookup(stay => stay.Who, StringComparer.Ordinal);
    }

    /// <summary>Reads what many records show.</summary>
    /// <param name="records">The records of one site.</param>
    /// <param name="zone">The site's wall clock, for times without offset.</param>
    public static WorkElsewhere Of(IEnumerable<ServiceRecord> records, SiteZone zone)
    {
        ArgumentNullException.ThrowIfNull(records);
        ArgumentNullException.ThrowIfNull(zone);
        return Of(records.Select(record => Read(record, zone)), zone);
    }

    /// <summary>The same from what was read before: where many records must not be kept.</summary>
    internal static WorkElsewhere Of(IEnumerable<RecordTold> told, SiteZone zone) =>
        new([.. told.DistinctBy(one => one.Id)], zone);

    /// <summary>What is kept of one record.</summary>
    internal static RecordTold Read(ServiceRecord record, SiteZone zone)
    {
        var moments = record.Timeline.Select(entry => JudgedOrder.MomentOf(entry.At, zone)).ToList();
        return new(
            record.Id,
            record.Machine.Id,
            moments.Count == 0 ? null : (moments.Min(), moments.Max()),
            [.. StaysIn(record, zone)],
            RecordShown.Of(record, zone)
        );
    }

    /// <summary>What other records show, at other machines, of the locks and people of a record while it went on.</summary>
    public ImmutableArray<Elsewhere> Beside(ServiceRecord record)
    {
        ArgumentNullException.ThrowIfNull(record);
        return Beside(Read(record, zone));
    }

    /// <summary>The same of what was read before.</summary>
    internal ImmutableArray<Elsewhere> Beside(RecordTold told)
    {
        if (told.Span is not var (first, last))
        {
            return [];
        }

        return
        [
            .. told
                .Stays.Select(stay => stay.Who)
                .Distinct(StringComparer.Ordinal)
                .SelectMany(who => stays[who])
                .Where(stay =>
                    stay.Record != told.Id
                    && stay.Place.Machine != told.Machine
                    && stay.From <= last
                    && !(stay.Until < first)
                    && stay.EndedBy != told.Id
                )
                .Concat(told.Stays.Select(HungAgain).OfType<Stay>())
                .OrderBy(stay => stay.From)
                .ThenBy(stay => stay.Who, StringComparer.Ordinal)
                .ThenBy(stay => stay.Record)
                .Select(stay => stay.Place),
        ];
    }

    /// <summary>What other records show that bears on a record.</summary>
    public ImmutableArray<OtherRecord> OtherRecords(ServiceRecord record)
    {
        ArgumentNullException.ThrowIfNull(record);
        return OtherRecords(RecordShown.Of(record, zone));
    }

    /// <summary>The same of what was read before; null shows nothing and is told nothing.</summary>
    internal ImmutableArray<OtherRecord> OtherRecords(RecordShown? own) =>
        own is null ? [] : [.. BearingEntries.Of(own, atMachine[own.Machine], who => ofPerson[who])];

    // Nothing is told of a lock that another record took off in time.
    private Stay? HungAgain(Stay own) =>
        LocksLeft.HungAgain(own, stays[own.Who]) is { } again
        && !stays[own.Who]
            .Any(ended => ended.Record == own.Record && ended.From == own.From && ended.Until < again.From)
            ? again
            : null;

    /// <summary>The stays that one record shows.</summary>
    internal static IEnumerable<Stay> StaysIn(ServiceRecord record, SiteZone zone)
    {
        var open = new Dictionary<string, TimelineEvent>(StringComparer.Ordinal);
        var entries = JudgedEntries.Of(record.Timeline, zone).Select(ordered => ordered.Event).ToList();
        // A lock hangs until somebody takes it off. Hands come out, whether or not that was entered: longer than its own
        // record goes on, nobody's work shows them anywhere.
        var last = entries
            .Select(entry => entry.At)
            .Append(record.SignOff?.At)
            .OfType<RecordedTime>()
            .MaxBy(at => JudgedOrder.MomentOf(at, zone));
        foreach (var entry in entries)
        {
            if (KeyOf(entry) is not { } who)
            {
                continue;
            }

            if (IsBegin(entry.Kind))
            {
                open.TryAdd(who, entry);
            }
            else if (open.Remove(who, out var begun))
            {
                yield return StayOf(record, who, begun, entry.At, last!, zone);
            }
        }

        foreach (var (who, begun) in open.OrderBy(one => one.Key, StringComparer.Ordinal))
        {
            var until = who.StartsWith(PersonPrefix, StringComparison.Ordinal) ? last : null;
            yield return StayOf(record, who, begun, until, last!, zone);
        }
    }

    private static Stay StayOf(
        ServiceRecord record,
        string who,
        TimelineEvent begun,
        RecordedTime? until,
        RecordedTime last,
        SiteZone zone
    ) =>
        new(
            who,
            record.Id,
            JudgedOrder.MomentOf(begun.At, zone),
            until is null ? null : JudgedOrder.MomentOf(until, zone),
            begun.Lock is { } device
                ? new LockElsewhere(device, record.Machine.Id, begun.At, until)
                : new PersonElsewhere(begun.Actor, record.Machine.Id, begun.At, until),
            begun.Actor,
            JudgedOrder.MomentOf(last, zone)
        );

    private static bool IsBegin(TimelineEventKind kind) =>
        kind
            is TimelineEventKind.WorkStarted
                or TimelineEventKind.LockApplied
                or TimelineEventKind.TagApplied;

    private static string? KeyOf(TimelineEvent entry) =>
        entry.Kind switch
        {
            TimelineEventKind.WorkStarted or TimelineEventKind.WorkStopped => PersonPrefix + entry.Actor,
            TimelineEventKind.LockApplied
            or TimelineEventKind.TagApplied
            or TimelineEventKind.LockRemoved
            or TimelineEventKind.TagRemoved => "lock " + entry.Lock,
            _ => null,
        };

    internal sealed record Stay(
        string Who,
        Domain.Id<ServiceRecord> Record,
        Moment From,
        Moment? Until,
        Elsewhere Place,
        Domain.Id<Participant> By,
        Moment Last
    )
    {
        /// <summary>The record that shows a lock hung elsewhere that this one left hanging; null: it is not ended by any.</summary>
        public Domain.Id<ServiceRecord>? EndedBy { get; init; }
    }

    /// <summary>What is kept of one record.</summary>
    /// <param name="Id">Which record.</param>
    /// <param name="Machine">Of which machine.</param>
    /// <param name="Span">Moments of the first and the last entry of its timeline; null: it has none.</param>
    /// <param name="Stays">Where it shows locks and people.</param>
    /// <param name="Shown">What it shows of its machine; null: nothing.</param>
    internal sealed record RecordTold(
        Domain.Id<ServiceRecord> Id,
        Domain.Id<MachineVisit> Machine,
        (Moment First, Moment Last)? Span,
        ImmutableArray<Stay> Stays,
        RecordShown? Shown
    );
}
