using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Application.Assessing;

/// <summary>What is kept of a record to hold others against it: its timeline, in judged order, each event once.</summary>
internal sealed class RecordShown
{
    // Whoever works on has only not come to enter the end; no shift is longer (common practice, no source).
    private static readonly TimeSpan LongestShift = TimeSpan.FromHours(12);

    private readonly ImmutableArray<(BenchTold Line, Moment At)> bench;

    private RecordShown(ServiceRecord record, ImmutableArray<OrderedEvent> events, SiteZone zone)
    {
        Id = record.Id;
        Machine = record.Machine.Id;
        Place = record.Place;
        SignOff = record.SignOff;
        Events = events;
        Last = events[^1].Moment;
        bench =
        [
            .. record.Units.SelectMany(unit =>
                unit.Entries.Where(entry => !IsAtWork(entry, zone))
                    .Select(entry =>
                        entry is { At: { } at, By: { } by } && BenchActs.Of(entry) is { } act
                            ? (new BenchTold(unit.Id, act, at, by), JudgedOrder.MomentOf(at, zone))
                            : ((BenchTold Line, Moment At)?)null
                    )
                    .OfType<(BenchTold, Moment)>()
            ),
        ];
        End =
            SignOff is null ? Last + LongestShift
            : JudgedOrder.MomentOf(SignOff.At, zone) is var signed && signed > Last ? signed
            : Last;
    }

    public Id<ServiceRecord> Id { get; }

    public Id<MachineVisit> Machine { get; }

    /// <summary>Where it says that the work was done.</summary>
    public WorkPlace Place { get; }

    public SignOff? SignOff { get; }

    public ImmutableArray<OrderedEvent> Events { get; }

    public Moment First => Events[0].Moment;

    /// <summary>Of its last entry.</summary>
    public Moment Last { get; }

    /// <summary>Until when it is reckoned to go on.</summary>
    public Moment End { get; }

    /// <summary>Null where it has no timeline: it shows nothing of any other.</summary>
    public static RecordShown? Of(ServiceRecord record, SiteZone zone)
    {
        var events = JudgedEntries.Of(record.Timeline, zone);
        return events.IsEmpty ? null : new(record, events, zone);
    }

    /// <summary>Whether the two went on at the same time.</summary>
    public bool IsBeside(RecordShown other) => First <= other.End && other.First <= End;

    /// <summary>
    /// Timed bench entries that show hands at a unit, or a reel lapped, outside the hands-on work of whoever made them: while another
    /// job went on, and for a shift after it, for what it left under pressure is dangerous to whoever goes in next.
    /// </summary>
    public IEnumerable<BenchTold> BenchDuring(RecordShown job)
    {
        var until = job.End + LongestShift;
        return bench.Where(line => job.First <= line.At && line.At <= until).Select(line => line.Line);
    }

    /// <summary>Entries of some kinds.</summary>
    public IEnumerable<OrderedEvent> Of(params TimelineEventKind[] kinds) =>
        Events.Where(entry => kinds.Contains(entry.Event.Kind));

    /// <summary>Safety defects that it does not show put right itself.</summary>
    public int DefectsLeft() =>
        Of(TimelineEventKind.SafetyDefectFound, TimelineEventKind.SafetyDefectClosed)
            .Aggregate(
                0,
                (open, entry) =>
                    entry.Event.Kind == TimelineEventKind.SafetyDefectFound ? open + 1 : Math.Max(0, open - 1)
            );

    /// <summary>Locks and tags that it shows put on and not taken off.</summary>
    public HashSet<Id<LockDevice>> LeftHanging()
    {
        HashSet<Id<LockDevice>> on = [];
        foreach (var entry in Events)
        {
            if (entry.Event.Lock is not { } device)
            {
                continue;
            }

            _ = IsRemoval(entry) ? on.Remove(device) : IsHanging(entry) && on.Add(device);
        }

        return on;
    }

    /// <summary>The entries by which it takes off what it does not show put on.</summary>
    public IEnumerable<OrderedEvent> TakenFromOthers() =>
        Events.Where(entry =>
            IsRemoval(entry)
            && entry.Event.Lock is { } device
            && !Events.Any(hung =>
                IsHanging(hung) && hung.Event.Lock == device && hung.Moment <= entry.Moment
            )
        );

    private bool IsAtWork(BenchEntry entry, SiteZone zone)
    {
        if (entry.At is not { } at)
        {
            return false;
        }

        var moment = JudgedOrder.MomentOf(at, zone);
        return entry is not Grinding
            && Of(TimelineEventKind.WorkStarted, TimelineEventKind.WorkStopped)
                .LastOrDefault(own => own.Event.Actor == entry.By && own.Moment <= moment)
                is { } last
            && (last.Event.Kind == TimelineEventKind.WorkStarted || last.Moment == moment);
    }

    private static bool IsRemoval(OrderedEvent entry) =>
        entry.Event.Kind is TimelineEventKind.LockRemoved or TimelineEventKind.TagRemoved;

    private static bool IsHanging(OrderedEvent entry) =>
        entry.Event.Kind is TimelineEventKind.LockApplied or TimelineEventKind.TagApplied;
}
