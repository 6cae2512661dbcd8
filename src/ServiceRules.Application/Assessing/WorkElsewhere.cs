using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation;

namespace ServiceRules.Application.Assessing;

/// <summary>
/// Where the locks and people of many records were: what one record cannot know of itself. A run over many records
/// gives each of them what the others show of its locks and people, for as long as its own timeline goes on.
/// </summary>
public sealed class WorkElsewhere
{
    private const string PersonPrefix = "person ";

    private readonly ILookup<string, Stay> stays;
    private readonly SiteZone zone;

    private WorkElsewhere(ILookup<string, Stay> stays, SiteZone zone)
    {
        this.stays = stays;
        this.zone = zone;
    }

    /// <summary>Reads the stays of many records.</summary>
    /// <param name="records">The records of one site.</param>
    /// <param name="zone">The site's wall clock, for times without offset.</param>
    public static WorkElsewhere Of(IEnumerable<ServiceRecord> records, SiteZone zone)
    {
        ArgumentNullException.ThrowIfNull(records);
        ArgumentNullException.ThrowIfNull(zone);
        return Of(records.SelectMany(record => StaysIn(record, zone)), zone);
    }

    /// <summary>The same from stays that were read before: where many records must not be kept.</summary>
    internal static WorkElsewhere Of(IEnumerable<Stay> stays, SiteZone zone) =>
        new(stays.ToLookup(stay => stay.Who, StringComparer.Ordinal), zone);

    /// <summary>What other records show, at other machines, of the locks and people of a record while it went on.</summary>
    public ImmutableArray<Elsewhere> Beside(ServiceRecord record)
    {
        ArgumentNullException.ThrowIfNull(record);
        if (record.Timeline.IsEmpty)
        {
            return [];
        }

        var moments = record.Timeline.Select(entry => JudgedOrder.MomentOf(entry.At, zone)).ToList();
        var (first, last) = (moments.Min(), moments.Max());
        return
        [
            .. StaysIn(record, zone)
                .Select(stay => stay.Who)
                .Distinct(StringComparer.Ordinal)
                .SelectMany(who => stays[who])
                .Where(stay =>
                    stay.Record != record.Id
                    && stay.Place.Machine != record.Machine.Id
                    && stay.From <= last
                    && !(stay.Until < first)
                )
                .OrderBy(stay => stay.From)
                .ThenBy(stay => stay.Who, StringComparer.Ordinal)
                .ThenBy(stay => stay.Record)
                .Select(stay => stay.Place),
        ];
    }

    /// <summary>The stays that one record shows.</summary>
    internal static IEnumerable<Stay> StaysIn(ServiceRecord record, SiteZone zone)
    {
        var open = new Dictionary<string, (RecordedTime From, Func<RecordedTime?, Elsewhere> Place)>(
            StringComparer.Ordinal
        );
        var seen = new HashSet<string>(StringComparer.Ordinal);
        var entries = JudgedOrder
            .Of(record.Timeline, zone)
            .Select(ordered => ordered.Event)
            .Where(entry => entry.EventId is not { } id || seen.Add(id))
            .ToList();
        foreach (var entry in entries)
        {
            if (KeyOf(entry) is not { } who)
            {
                continue;
            }

            if (IsBegin(entry.Kind))
            {
                open.TryAdd(who, (entry.At, Opened(entry, record)));
            }
            else if (open.Remove(who, out var begun))
            {
                yield return StayOf(record, who, begun.From, entry.At, begun.Place, zone);
            }
        }

        // A lock hangs until somebody takes it off. Hands come out, whether or not that was entered: longer than its own
        // record goes on, nobody's work shows them anywhere.
        var last = entries
            .Select(entry => entry.At)
            .Append(record.SignOff?.At)
            .OfType<RecordedTime>()
            .MaxBy(at => JudgedOrder.MomentOf(at, zone));
        foreach (var (who, begun) in open.OrderBy(one => one.Key, StringComparer.Ordinal))
        {
            var until = who.StartsWith(PersonPrefix, StringComparison.Ordinal) ? last : null;
            yield return StayOf(record, who, begun.From, until, begun.Place, zone);
        }
    }

    private static Stay StayOf(
        ServiceRecord record,
        string who,
        RecordedTime from,
        RecordedTime? until,
        Func<RecordedTime?, Elsewhere> place,
        SiteZone zone
    ) =>
        new(
            who,
            record.Id,
            JudgedOrder.MomentOf(from, zone),
            until is null ? null : JudgedOrder.MomentOf(until, zone),
            place(until)
        );

    private static Func<RecordedTime?, Elsewhere> Opened(TimelineEvent entry, ServiceRecord record) =>
        entry.Lock is { } device
            ? until => new LockElsewhere(device, record.Machine.Id, entry.At, until)
            : until => new PersonElsewhere(entry.Actor, record.Machine.Id, entry.At, until);

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
        Elsewhere Place
    );
}
