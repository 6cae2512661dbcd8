using ServiceRules.Domain.Timeline;

namespace ServiceRules.Oracle.SafeWork;

/// <summary>
/// The states of the make-safe timeline, source by source, walked through entry by entry: what is off, released and proven
/// dead, what hangs where, who keeps plug and key, and whether the machine runs.
/// </summary>
internal sealed class Walk
{
    private readonly Story story;
    private readonly Dictionary<string, Line> lines;
    private readonly List<Now> after = [];

    public Walk(Story story)
    {
        this.story = story;
        lines = story.Sources.ToDictionary(
            s => s.Id.Text,
            s => new Line(s.Id.Text, s.Isolator is not null, s.Lockable, s.Stored, -1),
            StringComparer.Ordinal
        );
        foreach (var added in story.Additions)
        {
            if (added.Event.Source is SourceReference.One { Source.Text: var id } && !lines.ContainsKey(id))
            {
                // What nobody wrote down is taken to have something to switch it off, and to need proof.
                lines[id] = new(id, true, false, false, added.Place);
            }
        }

        var now = new Now();
        after.AddRange(story.Steps.Select(step => now = Next(now, step)));
    }

    /// <summary>What stands at a place in the order, the entry there included; nothing before the first.</summary>
    public Now At(int place) => place < 0 ? new() : after[Math.Min(place, after.Count - 1)];

    public IEnumerable<Line> LinesAt(int place) => lines.Values.Where(line => line.Since <= place);

    public bool IsOff(int place, Line line) => !line.Switched || At(place).Off.Contains(line.Id);

    public bool IsAllOff(int place) => LinesAt(place).All(line => IsOff(place, line));

    /// <summary>Every isolator off, and a lock to keep it so where one fits.</summary>
    public bool IsAllHeld(int place) =>
        LinesAt(place)
            .Where(line => line.Switched)
            .All(line =>
                IsOff(place, line)
                && (
                    !line.Lockable
                    || At(place)
                        .On.Exists(s =>
                            s.IsOf(line.Id) && s.Kind == TimelineEventKind.LockApplied && HoldsOff(s)
                        )
                )
            );

    /// <summary>On how many isolators somebody has hung anything, or controls them otherwise, and of how many.</summary>
    public (int Hung, int All) Hung(int place, string person)
    {
        var switched = LinesAt(place).Where(line => line.Switched).ToList();
        return (
            switched.Count(line =>
                Controls(place, line, person) != Possible.NotMet
                || At(place).On.Exists(s => s.IsOf(line.Id) && s.By == person && HoldsOff(s))
            ),
            switched.Count
        );
    }

    /// <summary>Whether something is switched on; what came off it since it was off leaves it off, if nobody says otherwise.</summary>
    public bool IsAnyOn(int place) =>
        LinesAt(place).Any(line => line.Switched && !At(place).SwitchedOff.Contains(line.Id));

    public bool IsAllDead(int place) => LinesAt(place).All(line => At(place).Dead.Contains(line.Id));

    /// <summary>Whether one isolator is under somebody's own control: met, not met, or not told by the register of locks.</summary>
    public Possible Controls(int place, Line line, string person)
    {
        var now = At(place);
        var sum = Possible.NotMet;
        foreach (var on in now.On.Where(s => s.IsOf(line.Id) && s.By == person))
        {
            if (on.Kind == TimelineEventKind.TagApplied)
            {
                sum |= !line.Lockable && on.Event.AtLockPoint ? Possible.Met : Possible.None;
            }
            else if (HoldsOff(on))
            {
                sum |=
                    story.Lock(on.Device) is not { } known ? Possible.Unproven
                    : known.Owner?.Text == person ? Possible.Met
                    : Possible.None;
            }
        }

        if (
            now.On.Exists(s =>
                s.IsOf(line.Id) && HoldsOff(s) && story.Lock(s.Device) is { Owner: null, IsTag: false }
            )
        )
        {
            foreach (var box in now.On.Where(s => s.IsOnBox && s.By == person && HoldsOff(s)))
            {
                sum |=
                    story.Lock(box.Device) is not { } known ? Possible.Unproven
                    : known.Owner?.Text == person ? Possible.Met
                    : Possible.None;
            }
        }

        // It may be a job lock, and it may be anybody's.
        if (
            now.On.Exists(s =>
                s.IsOf(line.Id)
                && s.Kind == TimelineEventKind.LockApplied
                && HoldsOff(s)
                && story.Lock(s.Device) is null
            ) && now.On.Exists(s => s.IsOnBox && s.By == person && HoldsOff(s))
        )
        {
            sum |= Possible.Unproven;
        }

        bool byHand =
            !line.Lockable
            && (
                now.PlugsKept.Contains((line.Id, person))
                || (line.Id is "engine_start" or "battery_drive" && now.KeysKept.Contains(person))
            );
        return byHand || sum.HasFlag(Possible.Met) ? Possible.Met
            : sum.HasFlag(Possible.Unproven) ? Possible.Unproven
            : Possible.NotMet;
    }

    /// <summary>Every isolator under somebody's own control.</summary>
    public Possible ControlsAll(int place, string person) =>
        LinesAt(place)
            .Where(line => line.Switched)
            .Select(line => Controls(place, line, person))
            .Aggregate(Possible.Met, (sum, next) => sum.And(next));

    /// <summary>At least one of them.</summary>
    public bool ControlsAny(int place, string person) =>
        LinesAt(place)
            .Where(line => line.Switched)
            .Any(line => Controls(place, line, person) != Possible.NotMet);

    private Now Next(Now before, Step step)
    {
        var now = before.Copy();
        switch (step.Kind)
        {
            case TimelineEventKind.IsolatorOperated when step.Event.Position == IsolatorPosition.On:
                foreach (var line in Of(step))
                {
                    PutOn(now, line);
                    now.SwitchedOff.Remove(line.Id);
                    now.Bare.Remove(line.Id);
                }

                break;
            case TimelineEventKind.IsolatorOperated:
                Forget(now, Of(step));
                now.Off.UnionWith(Of(step).Select(line => line.Id));
                now.SwitchedOff.UnionWith(Of(step).Select(line => line.Id));
                break;
            case TimelineEventKind.PlugRemoved:
                now.SwitchedOff.UnionWith(Plugged(step).Select(line => line.Id));
                now.Off.UnionWith(Plugged(step).Select(line => line.Id));
                now.Pulled.UnionWith(Plugged(step).Select(line => line.Id));
                break;
            case TimelineEventKind.PlugControlConfirmed:
                foreach (
                    var line in Plugged(step)
                        .Where(line =>
                            !line.Lockable
                            && now.Bare.GetValueOrDefault(line.Id) == step.By
                            && story.Steps.Any(s =>
                                s.Kind == TimelineEventKind.PlugRemoved
                                && s.Before(step)
                                && Plugged(s).Contains(line)
                            )
                        )
                )
                {
                    now.Off.Add(line.Id);
                    now.Bare.Remove(line.Id);
                }

                // Whose control it is under, it is under nobody else's.
                now.PlugsKept.RemoveWhere(kept => Plugged(step).Exists(line => line.Id == kept.Source));
                now.PlugsKept.UnionWith(
                    Plugged(step)
                        .Where(line => now.Pulled.Contains(line.Id))
                        .Select(line => (line.Id, step.By))
                );
                break;
            case TimelineEventKind.KeyRemoved:
                now.KeysKept.Add(step.By);
                break;
            case TimelineEventKind.LockApplied or TimelineEventKind.TagApplied:
                now.On.Add(step);
                if (step.Event.Position is not (null or IsolatorPosition.On))
                {
                    // Nobody turned it on since they took the last one off, and hanging this one they saw it off.
                    foreach (
                        var line in Of(step).Where(line => now.Bare.GetValueOrDefault(line.Id) == step.By)
                    )
                    {
                        now.Off.Add(line.Id);
                        now.Bare.Remove(line.Id);
                    }
                }

                break;
            case TimelineEventKind.LockRemoved or TimelineEventKind.TagRemoved:
                var bare = now.On.Where(s => s.Device == step.Device).ToList();
                now.On.RemoveAll(s => s.Device == step.Device);
                foreach (
                    var line in lines.Values.Where(line =>
                        bare.Exists(s => s.IsOf(line.Id)) && !now.On.Exists(s => s.IsOf(line.Id))
                    )
                )
                {
                    if (IsOff(now, line))
                    {
                        now.Bare[line.Id] = step.By;
                    }

                    PutOn(now, line);
                }

                break;
            case TimelineEventKind.WorkStarted:
                now.Worked = true;
                break;
            case TimelineEventKind.StoredEnergyReleased:
                foreach (var line in Of(step))
                {
                    Release(now, line);
                }

                break;
            case TimelineEventKind.UnitsLowered or TimelineEventKind.UnitSupported:
                ReleaseNamed(now, "gravity", step);
                break;
            case TimelineEventKind.SeenAtRest:
                now.SeenAtRest = true;
                ReleaseNamed(now, "reel_rotation", step);
                break;
            case TimelineEventKind.ReelWedged:
                ReleaseNamed(now, "reel_rotation", step);
                break;
            // What turns when it is tried is not dead.
            case TimelineEventKind.IsolationVerified when IsTriedRunning(story, step):
                break;
            // Nor is what somebody not authorised tries again once hands were in.
            case TimelineEventKind.IsolationVerified
                when story.Authority(step.By) == Possible.NotMet
                    && story.Spells.Any(spell => spell.Start.Before(step)):
                break;
            case TimelineEventKind.IsolationVerified:
                foreach (var line in Of(step).Where(line => line.Since < step.Place))
                {
                    bool held =
                        !line.Switched
                        || !line.Lockable
                        || now.On.Exists(s =>
                            s.IsOf(line.Id) && s.Kind == TimelineEventKind.LockApplied && HoldsOff(s)
                        );
                    if (IsOff(now, line) && IsReleased(now, line) && held)
                    {
                        now.Dead.Add(line.Id);
                    }
                }

                break;
            case TimelineEventKind.MachineStarted or TimelineEventKind.TestEnergised:
                now.Runs = true;
                now.SeenAtRest = false;
                now.KeysKept.Clear();
                now.PlugsKept.Clear();
                now.Pulled.Clear();
                now.Dead.Clear();
                now.Released.Clear();
                now.Off.RemoveWhere(id => !now.On.Exists(s => s.IsOf(id)));
                now.SwitchedOff.IntersectWith(now.Off);
                now.Bare.Clear();
                now.Worked = false;
                break;
            case TimelineEventKind.MachineShutDown or TimelineEventKind.TestEnded:
                now.Runs = false;
                break;
            case TimelineEventKind.SourceAdded:
                foreach (var line in Of(step))
                {
                    PutOn(now, line);
                    now.SwitchedOff.Remove(line.Id);
                    now.Bare.Remove(line.Id);
                }

                break;
            default:
                break;
        }

        return now;
    }

    /// <summary>In a run, and not at the very time at which it began or ended.</summary>
    public static bool IsTriedRunning(Story story, Step step) =>
        TestRows.IsAmidARun(story, step)
        && story.Steps.Where(TurnsOnOrOff).LastOrDefault(s => s.Before(step))?.At != step.At
        && story.Steps.Where(TurnsOnOrOff).FirstOrDefault(s => step.Before(s))?.At != step.At;

    private static bool TurnsOnOrOff(Step step) =>
        step.Kind
            is TimelineEventKind.MachineStarted
                or TimelineEventKind.TestEnergised
                or TimelineEventKind.MachineShutDown
                or TimelineEventKind.TestEnded;

    private static bool HoldsOff(Step on) => on.Event.Position != IsolatorPosition.On;

    private IEnumerable<Line> Of(Step step) =>
        lines.Values.Where(line => step.IsOf(line.Id) && line.Since <= step.Place);

    private List<Line> Plugged(Step step)
    {
        if (step.Event.Source is not null)
        {
            return [.. Of(step)];
        }

        if (lines.TryGetValue("mains_cord", out var mains))
        {
            return [mains];
        }

        var open = lines.Values.Where(line => line is { Switched: true, Lockable: false }).ToList();
        return open.Count == 1 ? open : [];
    }

    private static void PutOn(Now now, Line line)
    {
        now.Off.Remove(line.Id);
        now.Pulled.Remove(line.Id);
        now.Released.Remove(line.Id);
        now.Dead.Remove(line.Id);
        now.PlugsKept.RemoveWhere(kept => kept.Source == line.Id);
    }

    private void ReleaseNamed(Now now, string source, Step step)
    {
        if (lines.TryGetValue(source, out var line))
        {
            if (IsOff(now, line))
            {
                now.Released.Add(line.Id);
            }

            // On a bench a prop and a wedge are the proof as well.
            if (
                story.Place == Domain.Records.WorkPlace.OnBench
                && step.Kind is TimelineEventKind.UnitSupported or TimelineEventKind.ReelWedged
            )
            {
                now.Dead.Add(line.Id);
            }
        }
    }

    /// <summary>What is let off once more after hands were in is no less dead than it was.</summary>
    private static void Release(Now now, Line line)
    {
        if (line.Stored && IsOff(now, line))
        {
            now.Released.Add(line.Id);
            if (!now.Worked)
            {
                now.Dead.Remove(line.Id);
            }
        }
    }

    private static void Forget(Now now, IEnumerable<Line> lines)
    {
        foreach (var line in lines)
        {
            now.Bare.Remove(line.Id);
        }
    }

    private static bool IsOff(Now now, Line line) => !line.Switched || now.Off.Contains(line.Id);

    private static bool IsReleased(Now now, Line line) => !line.Stored || now.Released.Contains(line.Id);

    /// <summary>A source as far as the walk needs it.</summary>
    /// <param name="Id">Its name.</param>
    /// <param name="Switched">Whether something switches it off.</param>
    /// <param name="Lockable">Whether that takes a lock.</param>
    /// <param name="Stored">Whether it stays when switched off.</param>
    /// <param name="Since">Where in the order it came; before everything where it was always there.</param>
    public sealed record Line(string Id, bool Switched, bool Lockable, bool Stored, int Since);

    /// <summary>How things stand.</summary>
    public sealed class Now
    {
        public bool Runs { get; set; }

        public bool SeenAtRest { get; set; }

        public HashSet<string> Off { get; init; } = [];

        public HashSet<string> SwitchedOff { get; init; } = [];

        /// <summary>Off, with the last lock or tag come off since and nothing turned on; by whom it came off.</summary>
        public Dictionary<string, string> Bare { get; init; } = [];

        /// <summary>Somebody's hands were in since the machine last ran.</summary>
        public bool Worked { get; set; }

        public HashSet<string> Pulled { get; init; } = [];

        public HashSet<string> Released { get; init; } = [];

        public HashSet<string> Dead { get; init; } = [];

        public HashSet<string> KeysKept { get; init; } = [];

        public HashSet<(string Source, string By)> PlugsKept { get; init; } = [];

        public List<Step> On { get; init; } = [];

        public Now Copy() =>
            new()
            {
                Runs = Runs,
                SeenAtRest = SeenAtRest,
                Off = [.. Off],
                SwitchedOff = [.. SwitchedOff],
                Bare = new(Bare),
                Worked = Worked,
                Pulled = [.. Pulled],
                Released = [.. Released],
                Dead = [.. Dead],
                KeysKept = [.. KeysKept],
                PlugsKept = [.. PlugsKept],
                On = [.. On],
            };
    }
}
