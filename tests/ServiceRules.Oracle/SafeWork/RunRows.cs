using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Oracle.SafeWork;

/// <summary>
/// Runs of the machine in the middle of a job, beyond what the table asks: who makes them, what a task on the running reel
/// needs, and what is made safe again by hand and eye before hands go in. From energised-tasks.md and the words of the
/// requirements.
/// </summary>
internal static class RunRows
{
    private const TimelineEventKind Task = TimelineEventKind.EnergisedTaskPerformed;

    /// <summary>Whoever runs the machine while the job goes on is authorised, and trained on that day.</summary>
    public static Possible ByAuthorised(Story story) =>
        story
            .Steps.Where(s =>
                s.Kind is TimelineEventKind.TestEnergised or Task
                || StartedAmidWork(story).Contains(s)
                || StartedForATask(story).Contains(s)
            )
            .Select(s => s.IsAssumed ? Possible.Unproven : Trained(story, s))
            .OfAll();

    /// <summary>The machine started, and a task done on it before anything says that it stopped.</summary>
    public static IEnumerable<Step> StartedForATask(Story story) =>
        story.Steps.Where(s =>
            s.Kind == TimelineEventKind.MachineStarted
            && story.Steps.Any(done =>
                done.Kind == Task
                && s.Before(done)
                && !story.Steps.Any(end =>
                    end.Kind is TimelineEventKind.TestEnded or TimelineEventKind.MachineShutDown
                    && s.Before(end)
                    && end.Before(done)
                )
            )
        );

    /// <summary>The machine started with hands in before, and hands going in again.</summary>
    public static IEnumerable<Step> StartedAmidWork(Story story) =>
        story.Steps.Where(s =>
            s.Kind == TimelineEventKind.MachineStarted
            && story.Spells.Any(spell => spell.Start.Before(s))
            && story.Spells.Any(spell => s.Before(spell.Start))
        );

    /// <summary>However it was run in the middle of the job, it was shut down before hands went in again.</summary>
    public static Possible ShutDownAgain(Story story)
    {
        var sum = Possible.NotApplicable;
        bool isWaiting = false;
        foreach (var run in story.Steps.Where(s => IsStart(s) && story.FirstWork?.Before(s) == true))
        {
            var then = story.Steps.FirstOrDefault(s =>
                run.Before(s) && (IsStart(s) || story.Spells.Any(spell => spell.Start == s))
            );
            isWaiting |= then is null && story.IsOpen;
            if (then is null || IsStart(then))
            {
                continue;
            }

            var meanwhile = story.Steps.Where(s => run.Before(s) && s.Before(then)).ToList();
            // Seen at rest, and perhaps proven dead: then only how it was stopped is not told.
            sum = sum.And(
                meanwhile.Exists(s => s.Kind == TimelineEventKind.MachineShutDown) ? Possible.Met
                : meanwhile.Exists(s => s.Kind == TimelineEventKind.SeenAtRest) ? Possible.NeverMet
                : then.At.Equals(run.At) || story.Steps.Any(s => then.Before(s) && s.At == then.At)
                    ? Possible.NeverMet
                : Possible.NotMet
            );
        }

        // Whoever stopped work that never started may have been in after any run.
        return sum == Possible.NotMet ? sum
            : story.StrayStops.Any() ? Possible.Any
            : isWaiting ? sum | Possible.NeverNotMet
            : sum;
    }

    private static bool IsStart(Step step) =>
        step.Kind is TimelineEventKind.TestEnergised or TimelineEventKind.MachineStarted;

    /// <summary>The procedure lists the task and names who approved it.</summary>
    public static Possible Approved(Story story)
    {
        if (!HasTask(story))
        {
            return Possible.NotApplicable;
        }

        if (story.Steps.Any(s => s.Kind == Task && s.Event.Task is null))
        {
            return story.InForce is null ? Possible.Unproven : Possible.NeverMet | Possible.Met;
        }

        return story.InForce is not { } written ? Possible.Unproven
            : written.EnergisedTasks.Any(t => t.Task == ServiceTask.Lap && t.ApprovedBy is not null)
                ? Possible.Met
            : Possible.NotMet;
    }

    /// <summary>What keeps people clear is recorded before the machine is energised, and so as the people of the run show it.</summary>
    public static Possible MeasuresFirst(Story story)
    {
        var first = RecordedFirst(story);
        var held = first == Possible.NotApplicable ? first : first.And(PeopleRows.Held(story));
        return MayAskForTimes(story) ? held | Possible.Unproven : held;
    }

    /// <summary>With a run to come, when adjusters were turned is asked for before it.</summary>
    private static bool MayAskForTimes(Story story) =>
        story.IsOpen
        && story.Record.Units.Any(u => u.Entries.Any(e => e is Adjustment { At: null }))
        && (
            PeopleRows.Laps(story)
            || story.Steps.Any(s => s.Kind == TimelineEventKind.AlternativeMeasuresRecorded)
        );

    private static Possible RecordedFirst(Story story)
    {
        // A test is a run too: somebody says before it how people are kept clear.
        var tests = story
            .Steps.Where(s => s.Kind == TimelineEventKind.TestEnergised)
            .Select(run =>
                story.Steps.Any(s =>
                    s.Kind == TimelineEventKind.AlternativeMeasuresRecorded
                    && s.Before(run)
                    && (
                        s.Event.Measures.IsEmpty
                        || s.Event.Measures.Any(KeepsClear)
                        // Not their word, or all that the procedure asks: looked at with the people of the run.
                        || story.Authority(s.By) != Possible.Met
                        || story.InForce is { TestMeasures.IsEmpty: false }
                    )
                )
            )
            .ToList();
        return !HasTask(story)
            ? tests.Count == 0
                ? Possible.NotApplicable
                : tests.All(told => told)
                    ? Possible.Met | Possible.Unproven
                    : Possible.NotMet
            : tests.Contains(false)
                ? Possible.NotMet
                : TaskMeasuresFirst(story);
    }

    /// <summary>What is only worn, or said of a machine that stands still, keeps nobody from what turns.</summary>
    internal static bool KeepsClear(ProtectiveMeasure measure) =>
        measure
            is not (
                ProtectiveMeasure.EyeProtection
                or ProtectiveMeasure.HairAndClothingSecured
                or ProtectiveMeasure.NoGlovesNearTurningReel
                or ProtectiveMeasure.KeyRemovedAndKept
                or ProtectiveMeasure.ReelsAtRestSeen
                or ProtectiveMeasure.EngineOff
            );

    private static Possible TaskMeasuresFirst(Story story)
    {
        var done = story.Steps.Where(s => s.Kind == Task).ToList();
        var recorded = story
            .Steps.Where(s => s.Kind == TimelineEventKind.AlternativeMeasuresRecorded)
            .ToList();
        if (done.Count == 0)
        {
            return Possible.Any;
        }

        bool tangled = Starts(story).Any(s => EndOf(story, s) is null);
        bool plain =
            !tangled
            && done.All(d => d.Event.Task == ServiceTask.Lap)
            && recorded.All(r => r.Event.Measures.Contains(ProtectiveMeasure.LongHandledBrush));
        if (recorded.Count == 0)
        {
            return Possible.NotMet;
        }

        if (!tangled && IsDoneOutsideARun(story))
        {
            return story.IsOpen ? Possible.NeverMet : Possible.NotMet;
        }

        // Recorded before the machine was energised at all is in time; after the task itself is not.
        bool inTime = done.All(d =>
            story.Steps.LastOrDefault(s => IsStart(s) && s.Before(d)) is var run
            && recorded.Any(r => r.Before(run ?? d))
        );
        bool tooLate = !tangled && done.Any(d => !recorded.Any(r => r.Before(d)));
        return tooLate ? Possible.NotMet
            : inTime && plain && story.InForce is not null ? Possible.Met
            : Possible.Judged;
    }

    /// <summary>No longer at a time than the procedure says.</summary>
    public static Possible RunLength(Story story)
    {
        if (Starts(story).Any(s => EndOf(story, s) is null))
        {
            return Possible.Any;
        }

        int? longest = story
            .InForce?.EnergisedTasks.FirstOrDefault(t => t.Task == ServiceTask.Lap)
            ?.LongestMinutes;
        if (
            longest is not { } minutes
            || !story.Steps.Any(s => s.Kind == Task && s.Event.Task == ServiceTask.Lap)
        )
        {
            return Possible.Any & ~Possible.NotMet;
        }

        var sum = Possible.NotApplicable;
        Step? since = null;
        Step? last = null;
        bool mayBeOne = false;
        foreach (var start in Starts(story))
        {
            var end = EndOf(story, start)!;
            bool laps = story.Steps.Any(s =>
                s.Kind == Task && s.Event.Task == ServiceTask.Lap && start.Before(s) && s.Before(end)
            );
            bool isPlain =
                start.Kind == TimelineEventKind.MachineStarted
                && !laps
                && !StartedAmidWork(story).Contains(start);
            // Run again with nothing done in between is run on; with something done, perhaps.
            bool runsOn =
                last is not null && !isPlain && !story.Steps.Any(s => last.Before(s) && s.Before(start));
            mayBeOne |= last is not null && !runsOn;
            since = runsOn ? since : start;
            last = end;
            bool other = story.Steps.Any(s => s.Kind == Task && s.Event.Task is null);
            var one =
                !laps ? Possible.NotApplicable
                : end.At - since!.At > TimeSpan.FromMinutes(minutes) ? Possible.NotMet
                : Possible.Met;
            sum = sum.And(other || (runsOn && !laps) ? one | Possible.Judged | Possible.NotApplicable : one);
        }

        return mayBeOne && sum != Possible.NotMet ? sum | Possible.Judged : sum;
    }

    /// <summary>What came during the job came with hands out, and was off, held and proven before hands went in again.</summary>
    public static Possible AddedControlled(Story story) =>
        story
            .Steps.Where(s =>
                s.Kind == TimelineEventKind.SourceAdded && s.Event.Source is SourceReference.One
            )
            .Select(s => AddedControlled(story, s))
            .OfAll();

    /// <summary>A step of the seat, or the look at the reels: before the first work and again after every run.</summary>
    public static Possible Again(Story story, IReadOnlyCollection<TimelineEventKind> steps, bool isAsked)
    {
        if (!isAsked)
        {
            return Possible.NotApplicable;
        }

        if (story.FirstWork is null)
        {
            return story.IsOpen ? Possible.NeverNotMet
                : !story.Steps.Any(s => steps.Contains(s.Kind)) ? Possible.NotMet
                : Possible.NeverMet;
        }

        bool isThere = true;
        Step? ran = null;
        foreach (var now in story.Steps)
        {
            if (now.Kind is TimelineEventKind.TestEnergised or TimelineEventKind.MachineStarted)
            {
                ran = now;
            }
            else if (
                story.Spells.FirstOrDefault(spell => spell.Start == now) is not null
                && !story.Spells.Any(spell =>
                    spell.Start.Before(now) && (ran is null || ran.Before(spell.Start))
                )
            )
            {
                isThere &= story.Steps.Any(s =>
                    steps.Contains(s.Kind) && s.Before(now) && (ran is null || ran.Before(s))
                );
            }
        }

        bool mayGoOn = story.IsOpen && ran is not null;
        return !isThere ? Possible.NotMet
            : mayGoOn ? Possible.NeverNotMet
            : Possible.Met;
    }

    /// <summary>The reel cannot have turned for a task when nothing turned it.</summary>
    public static bool IsDoneOutsideARun(Story story) =>
        story.Steps.Any(done =>
            done.Kind == Task
            && !Starts(story)
                .Any(start => start.Before(done) && (EndOf(story, start) is not { } end || done.Before(end)))
        );

    private static IEnumerable<Step> Starts(Story story) => story.Steps.Where(IsStart);

    /// <summary>The end of a run; none where it is started again before.</summary>
    internal static Step? EndOf(Story story, Step start)
    {
        var next = story.Steps.FirstOrDefault(s =>
            s.Kind
                is TimelineEventKind.TestEnded
                    or TimelineEventKind.MachineShutDown
                    or TimelineEventKind.TestEnergised
                    or TimelineEventKind.MachineStarted
            && start.Before(s)
        );
        return next is null || IsStart(next) ? null : next;
    }

    private static bool HasTask(Story story) => story.Steps.Any(s => s.Kind == Task);

    internal static Possible Trained(Story story, Step step, bool asksForAPart = true)
    {
        var day = story.Context.Zone.DayOf(step.Event.At);
        return story.Person(step.By) switch
        {
            null => Possible.Unproven,
            { Authorised: false } => Possible.NotMet,
            _ when asksForAPart && IsOnlyAffected(story, step.By) => Possible.NotMet,
            var known when known.TrainedOn > day || known.TrainedUntil < day => Possible.NotMet,
            _ => Possible.Met,
        };
    }

    private static bool IsOnlyAffected(Story story, string person) =>
        story.Affected.Contains(person)
        && story.Record.People.Where(p => p.Id.Text == person).All(p => p.Role == JobRole.Affected)
        && !story.Workers.Contains(person);

    private static Possible AddedControlled(Story story, Step added)
    {
        string id = ((SourceReference.One)added.Event.Source!).Source.Text;
        var known = story.Sources.FirstOrDefault(s => s.Id.Text == id);
        if (story.Spells.Any(spell => spell.Covers(added.Place)))
        {
            return Possible.NotMet;
        }

        var next = story.Spells.Where(s => added.Before(s.Start)).MinBy(s => s.Start.Place)?.Start;
        bool Since(Step s) => added.Before(s) && (next is null || s.Before(next)) && s.IsOf(id);
        bool whole =
            story.Steps.Any(s => Since(s) && s.IsIsolation)
            && story.Steps.Any(s => Since(s) && s.IsDeviceOn)
            && story.Steps.Any(s => Since(s) && s.Kind == TimelineEventKind.IsolationVerified)
            && known is null;
        bool heldBefore = story.DevicesOn(id, added.Place).Count > 0;
        bool proven = story.Steps.Any(s => Since(s) && s.Kind == TimelineEventKind.IsolationVerified);
        if (story.StrayStops.Any(added.Before))
        {
            return Possible.Judged;
        }

        return next is null
            ? whole || !story.IsOpen
                ? Possible.Met
                : Possible.NeverNotMet
            : whole
                ? Possible.Met
                : !proven
                    ? Possible.NotMet
                    : heldBefore || known is not null || SequenceRows.HasPlug(story, id)
                        ? Possible.Judged
                        : Possible.NotMet;
    }
}
