using System.Collections.Frozen;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation;

namespace ServiceRules.Application.Assessing;

/// <summary>Which entries of other records bear on a job.</summary>
internal static class BearingEntries
{
    /// <summary>How soon after their lock came off somebody seen was not absent: as the duty judges it.</summary>
    private static readonly TimeSpan Soon = TimeSpan.FromMinutes(30);

    private static readonly TimelineEventKind[] Defects =
    [
        TimelineEventKind.SafetyDefectFound,
        TimelineEventKind.SafetyDefectClosed,
    ];

    private static readonly TimelineEventKind[] Outs =
    [
        TimelineEventKind.MachineStarted,
        TimelineEventKind.TestEnergised,
        TimelineEventKind.HandedBack,
        TimelineEventKind.SafetyDefectClosed,
    ];

    private static readonly FrozenSet<TimelineEventKind> Beside = new[]
    {
        TimelineEventKind.WorkStarted,
        TimelineEventKind.WorkStopped,
        TimelineEventKind.BlockageClearedByHand,
        TimelineEventKind.BlockageClearedWithTool,
        TimelineEventKind.ReelWedged,
        TimelineEventKind.UnitSupported,
        TimelineEventKind.UnitsLowered,
        TimelineEventKind.GuardsRefitted,
        TimelineEventKind.MachineShutDown,
        TimelineEventKind.MachineStarted,
        TimelineEventKind.TestEnergised,
        TimelineEventKind.TestEnded,
        TimelineEventKind.EnergisedTaskPerformed,
        TimelineEventKind.StoredEnergyReleased,
        TimelineEventKind.StoredEnergyRechecked,
        TimelineEventKind.IsolationVerified,
        TimelineEventKind.IsolatorOperated,
        TimelineEventKind.SourceAdded,
        TimelineEventKind.HandedBack,
        TimelineEventKind.LockApplied,
        TimelineEventKind.LockRemoved,
        TimelineEventKind.TagApplied,
        TimelineEventKind.TagRemoved,
        TimelineEventKind.AbsenceConfirmed,
        TimelineEventKind.ContactAttempted,
        TimelineEventKind.PrimaryAssigned,
        TimelineEventKind.CoordinatorAssigned,
        TimelineEventKind.HandoverBriefed,
        TimelineEventKind.SafetyDefectFound,
        TimelineEventKind.SafetyDefectClosed,
    }.ToFrozenSet();

    /// <summary>What other records show that bears on a job, in the order in which they began.</summary>
    /// <param name="own">The job.</param>
    /// <param name="atTheMachine">The records of its machine.</param>
    /// <param name="ofPerson">The records that have entries or the sign-off of a person.</param>
    public static IEnumerable<OtherRecord> Of(
        RecordShown own,
        IEnumerable<RecordShown> atTheMachine,
        Func<Domain.Id<Participant>, IEnumerable<RecordShown>> ofPerson
    )
    {
        var found = new Dictionary<RecordShown, HashSet<OrderedEvent>>();
        var others = atTheMachine.Where(other => other.Id != own.Id).OrderBy(other => other.First).ToList();
        var taken = own.TakenFromOthers().Select(entry => entry.Event.Lock).ToHashSet();
        var hanging = own.LeftHanging();
        foreach (var other in others)
        {
            if (own.IsBeside(other))
            {
                Add(found, other, other.Of([.. Beside]));
            }
            else if (other.First < own.First)
            {
                Add(found, other, other.Of(Defects));
                Add(found, other, other.Events.Where(entry => taken.Contains(entry.Event.Lock)));
            }
            else
            {
                Add(
                    found,
                    other,
                    other.TakenFromOthers().Where(entry => hanging.Contains(entry.Event.Lock!.Value))
                );
            }
        }

        if (own.DefectsLeft() > 0)
        {
            var next = others.Find(other => other.First > own.End && other.Of(Outs).Any());
            if (next is not null)
            {
                Add(found, next, next.Of(Outs));
            }
        }

        AddAbsent(found, own, others, ofPerson);
        return found
            .Where(one => one.Value.Count > 0 || (own.IsBeside(one.Key) && one.Key.BenchDuring(own).Any()))
            .OrderBy(one => one.Key.First)
            .ThenBy(one => one.Key.Id)
            .Select(one => Told(own, one.Key, one.Value));
    }

    // Whoever is certified absent here is looked for everywhere.
    private static void AddAbsent(
        Dictionary<RecordShown, HashSet<OrderedEvent>> found,
        RecordShown own,
        List<RecordShown> others,
        Func<Domain.Id<Participant>, IEnumerable<RecordShown>> ofPerson
    )
    {
        foreach (
            var off in own.Of(TimelineEventKind.LockRemoved, TimelineEventKind.TagRemoved)
                .Where(entry => entry.Event.Exception is not null)
        )
        {
            var owner = (
                Hung(own, off)
                ?? others
                    .Select(other => Hung(other, off))
                    .OfType<OrderedEvent>()
                    .MaxBy(entry => entry.Moment)
            )
                ?.Event
                .Actor;
            var since = own.Of(TimelineEventKind.AbsenceConfirmed)
                .LastOrDefault(entry => entry.Moment <= off.Moment);
            if (owner is not { } absent || absent == off.Event.Actor || since is null)
            {
                continue;
            }

            foreach (var other in ofPerson(absent).Where(other => other.Id != own.Id))
            {
                Add(
                    found,
                    other,
                    other.Events.Where(entry =>
                        entry.Event.Actor == absent
                        && since.Moment < entry.Moment
                        && entry.Moment <= off.Moment + Soon
                    )
                );
            }
        }
    }

    private static OrderedEvent? Hung(RecordShown record, OrderedEvent off) =>
        record
            .Of(TimelineEventKind.LockApplied, TimelineEventKind.TagApplied)
            .LastOrDefault(entry => entry.Event.Lock == off.Event.Lock && entry.Moment <= off.Moment);

    private static void Add(
        Dictionary<RecordShown, HashSet<OrderedEvent>> found,
        RecordShown other,
        IEnumerable<OrderedEvent> entries
    )
    {
        if (!found.TryGetValue(other, out var known))
        {
            found[other] = known = [];
        }

        known.UnionWith(entries);
    }

    private static OtherRecord Told(RecordShown own, RecordShown other, HashSet<OrderedEvent> entries) =>
        new(
            other.Id,
            other.Machine,
            other.SignOff,
            [.. other.Events.Where(entries.Contains).Select(entry => Told(entry.Event))]
        )
        {
            Place = other.Place,
            Bench = other.Machine == own.Machine && own.IsBeside(other) ? [.. other.BenchDuring(own)] : [],
        };

    private static TimelineEvent Told(TimelineEvent entry) =>
        new()
        {
            Kind = entry.Kind,
            At = entry.At,
            Actor = entry.Actor,
            Source = entry.Source,
            Lock = entry.Lock,
            Position = entry.Position,
            Isolator = entry.Isolator,
            Pressure = entry.Pressure,
            Task = entry.Task,
            Reason = entry.Kind == TimelineEventKind.SafetyDefectFound ? entry.Reason ?? entry.Method : null,
            Exception = entry.Exception,
            Others = entry.Others,
        };
}
