using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Oracle.SafeWork;

/// <summary>
/// Measures that speak of people, against the people of the run: who held the control, who was at the stop, who was kept
/// out. From energised-tasks.md: "record who held the control", "names of others present", "two people only with roles stated".
/// </summary>
internal static class PeopleRows
{
    private const TimelineEventKind Measured = TimelineEventKind.AlternativeMeasuresRecorded;
    private const ProtectiveMeasure Single = ProtectiveMeasure.SingleOperatorControl;
    private const ProtectiveMeasure Second = ProtectiveMeasure.SecondPersonAtStopControl;
    private const ProtectiveMeasure Zone = ProtectiveMeasure.ExclusionZone;

    private static readonly ProtectiveMeasure[] KeepClear =
    [
        ProtectiveMeasure.GuardsInPlace,
        ProtectiveMeasure.LongHandledBrush,
        ProtectiveMeasure.ExtensionTool,
        Single,
        Second,
        Zone,
    ];

    private static readonly TimelineEventKind[] Controls =
    [
        TimelineEventKind.TestEnergised,
        TimelineEventKind.MachineStarted,
        TimelineEventKind.TestEnded,
        TimelineEventKind.MachineShutDown,
        TimelineEventKind.DriveDisengaged,
        TimelineEventKind.ParkingBrakeSet,
        TimelineEventKind.KeyRemoved,
    ];

    private static readonly TimelineEventKind[] AtTheUnit =
    [
        TimelineEventKind.ReelWedged,
        TimelineEventKind.UnitSupported,
        TimelineEventKind.GuardsRefitted,
        TimelineEventKind.BlockageClearedByHand,
        TimelineEventKind.BlockageClearedWithTool,
        TimelineEventKind.IsolatorOperated,
        TimelineEventKind.PlugRemoved,
        TimelineEventKind.LockApplied,
        TimelineEventKind.TagApplied,
        TimelineEventKind.LockRemoved,
        TimelineEventKind.TagRemoved,
        TimelineEventKind.StoredEnergyReleased,
        TimelineEventKind.StoredEnergyRechecked,
        TimelineEventKind.IsolationVerified,
        TimelineEventKind.AreaInspected,
        TimelineEventKind.CutOutsProved,
        TimelineEventKind.WorkStarted,
        TimelineEventKind.WorkStopped,
    ];

    /// <summary>All the runs for a test or a task; met where what is said of people is as the record shows them.</summary>
    public static Possible Held(Story story) =>
        story
            .Steps.Where(s =>
                s.Kind == TimelineEventKind.TestEnergised || RunRows.StartedForATask(story).Contains(s)
            )
            .Select(s => Held(story, s))
            .OfAll();

    private static Possible Held(Story story, Step start)
    {
        var before = story.Steps.Where(s => s.Kind == Measured && s.Before(start)).ToList();
        var told = before.Where(s => story.Authority(s.By) == Possible.Met && HasPart(story, s.By)).ToList();
        if (before.Count > 0 && told.Count == 0)
        {
            return Possible.Unproven;
        }

        if (told.Count == 0)
        {
            return Possible.Judged;
        }

        if (start.IsAssumed || RunRows.EndOf(story, start) is not { } end)
        {
            return Possible.Judged;
        }

        var meanwhile = story.Steps.Where(s => start.Before(s) && s.Before(end)).ToList();
        bool isTangled =
            meanwhile.Exists(s => s.Kind == TimelineEventKind.HandedBack || s.IsAssumed)
            || story.Steps.Any(s => s != start && s != end && (s.At == start.At || s.At == end.At))
            || before.Exists(s => s.Event.Method is not null)
            || story.Context.Attendance.Length + story.Context.Elsewhere.Length > 0;
        var tasks = meanwhile.Where(s => s.Kind == TimelineEventKind.EnergisedTaskPerformed).ToList();
        if (isTangled || tasks.Exists(s => s.Event.Task is null) || Laps(story))
        {
            return Possible.Judged;
        }

        var run = new Run(story, start, end, [.. meanwhile], [.. tasks.Select(s => s.By).Distinct()]);
        return run.Judge(told);
    }

    internal static bool Laps(Story story) =>
        story.Record.Tasks.Contains(ServiceTask.Lap)
        || story.Record.Units.Any(u => u.Entries.Any(e => e is Grinding { Kind: GrindingKind.Lapping }));

    private static bool HasPart(Story story, string person) =>
        story.Record.People.FirstOrDefault(p => p.Id.Text == person)?.Role != JobRole.Affected
        || Crew(story).Contains(person)
        || story.Steps.Any(s =>
            s.By == person
            && s.Kind is TimelineEventKind.TestEnergised or TimelineEventKind.EnergisedTaskPerformed
        );

    /// <summary>Whoever does the work or helps with it, by the record or by what they did.</summary>
    private static HashSet<string> Crew(Story story) =>
        [
            .. story
                .Record.People.Where(p => p.Role is JobRole.Performs or JobRole.Assists)
                .Select(p => p.Id.Text)
                .Where(person => !story.AtTheStop.Contains(person))
                .Concat(story.Workers)
                .Concat(story.Touches.Select(touch => touch.By))
                .Concat(
                    story
                        .Steps.Where(s =>
                            s.Kind
                                is TimelineEventKind.BlockageClearedByHand
                                    or TimelineEventKind.BlockageClearedWithTool
                        )
                        .Select(s => s.By)
                ),
        ];

    private sealed record Run(Story Story, Step Start, Step End, Step[] Meanwhile, string[] Doing)
    {
        private string[] Working => Doing.Length > 0 ? Doing : [Start.By];

        private IEnumerable<Step> At(TimelineEventKind[] kinds) =>
            Meanwhile.Append(End).Where(s => kinds.Contains(s.Kind));

        private IEnumerable<string> TouchedBy =>
            Story.Touches.Where(t => Start.At < t.At && t.At < End.At).Select(t => t.By);

        private IEnumerable<string> NearBy => At(AtTheUnit).Select(s => s.By).Concat(TouchedBy);

        public Possible Judge(List<Step> told)
        {
            var last = Story.Steps.LastOrDefault(s =>
                s.Kind is TimelineEventKind.TestEnergised or TimelineEventKind.MachineStarted
                && s.Before(Start)
            );
            var own = told.Where(s => last is null || last.Before(s)).ToList();
            var asked = Doing.Length > 0 ? AskedToLap() : Story.InForce?.TestMeasures ?? [];
            var ever = told.SelectMany(s => s.Event.Measures).ToHashSet();
            var said = (own.Count > 0 ? own : [told[^1]])
                .SelectMany(s => s.Event.Measures)
                .Concat(asked.Where(ever.Contains))
                .ToHashSet();
            var (atStop, second) = said.Contains(Second) ? AtStop(told) : ([], Possible.Met);
            Dictionary<ProtectiveMeasure, Possible> wrong = [];
            if (second != Possible.Met)
            {
                wrong[Second] = second;
            }

            if (
                said.Contains(Single)
                && !IsAlone(told.Last(s => s.Event.Measures.Contains(Single)).By, atStop)
            )
            {
                wrong[Single] = Possible.NotMet;
            }

            if (
                said.Contains(Zone)
                && NearBy.Any(p => p != Start.By && !Doing.Contains(p) && !atStop.Contains(p))
            )
            {
                wrong[Zone] = Possible.NotMet;
            }

            var list =
                asked.Any(m => !ever.Contains(m)) ? Possible.NotMet
                : asked.Length > 0 || ever.Any(KeepClear.Contains) ? Possible.Met
                : ever.Count > 0 && !ever.Any(RunRows.KeepsClear) ? Possible.NotMet
                : Possible.Unproven;
            bool isKept = said.Any(m => KeepClear.Contains(m) && !wrong.ContainsKey(m));
            return wrong
                .Select(one =>
                    asked.Contains(one.Key) || !isKept ? one.Value
                    : one.Value == Possible.NotMet ? Possible.Unproven
                    : Possible.Met
                )
                .Append(list)
                .OfAll();
        }

        private ImmutableArray<ProtectiveMeasure> AskedToLap() =>
            Story.InForce?.EnergisedTasks.FirstOrDefault(t => t.Task == ServiceTask.Lap)?.Measures ?? [];

        private bool IsAlone(string teller, HashSet<string> atStop)
        {
            string by = Start.By;
            return Doing.All(p => p == by)
                && (Doing.Length > 0 || by == teller || Crew(Story).Contains(by))
                && NearBy.All(p => p == by)
                && At(Controls).All(s => s.By == by || atStop.Contains(s.By));
        }

        private (HashSet<string> There, Possible Fault) AtStop(List<Step> told)
        {
            var say = told.Where(s => s.Event.Measures.Contains(Second)).ToList();
            var named = say.LastOrDefault(s => !s.Event.Others.IsEmpty);
            HashSet<string> those = named is not null
                ? [.. named.Event.Others.Select(o => o.Text)]
                :
                [
                    .. Crew(Story)
                        .Concat(Story.AtTheStop)
                        .Append(say[^1].By)
                        .Append(Start.By)
                        .Concat(At(Controls).Select(s => s.By))
                        .Except(Working),
                ];
            var faults = those.Select(p => (Person: p, Fault: FaultOf(p))).ToList();
            HashSet<string> there = [.. faults.Where(f => f.Fault == Possible.Met).Select(f => f.Person)];
            return (
                there,
                there.Count > 0 ? Possible.Met
                : named is not null && faults.TrueForAll(f => f.Fault == Possible.NotMet) ? Possible.NotMet
                : Possible.Unproven
            );
        }

        private Possible FaultOf(string person)
        {
            bool isOne =
                Doing.Contains(person)
                || (Doing.Length == 0 && person == Start.By && Crew(Story).All(p => p == person));
            bool isElsewhere =
                NearBy.Contains(person)
                || Story.Spells.Any(s =>
                    s.Person == person && s.Start.Place < End.Place && Start.Place < s.End
                );
            bool isKnown =
                (Story.Record.People.Any(p => p.Id.Text == person) || Crew(Story).Contains(person))
                && (Story.Context.People.IsEmpty || Story.Person(person) is not null);
            return isOne || isElsewhere ? Possible.NotMet
                : isKnown ? Possible.Met
                : Possible.Unproven;
        }
    }
}
