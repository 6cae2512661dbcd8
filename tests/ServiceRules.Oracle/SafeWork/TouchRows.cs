using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Oracle.SafeWork;

/// <summary>What the bench log alone tells of hands, from the words of docs/verdicts.md.</summary>
internal static class TouchRows
{
    /// <summary>
    /// Hands at a unit outside the own work: protected, or at least with every isolator held off and the machine at rest.
    /// </summary>
    public static IEnumerable<Possible> OutsideWork(Story story, Walk walk) =>
        story
            .Touches.Where(touch => !story.Spells.Any(w => w.Person == touch.By && touch.IsIn(w)))
            .Select(touch =>
                OutsideWork(story, walk, touch)
                | (
                    story.Spells.Any(w => w.Person == touch.By && Touch.IsPerhapsIn(touch.At, w))
                        ? Possible.NotApplicable
                        : Possible.None
                )
            );

    private static Possible OutsideWork(Story story, Walk walk, Touch touch)
    {
        var now = walk.At(touch.After);
        if (now.Runs && touch.Entry is Reading { Observed: Observation.Contact })
        {
            // Heard; of a run for a test no hand is told.
            return Possible.NotApplicable | Possible.NotMet;
        }

        var own = walk.ControlsAll(touch.After, touch.By);
        var told =
            now.Runs || !walk.IsAllHeld(touch.After) ? Possible.NotMet
            : own == Possible.NotMet || !walk.IsAllDead(touch.After) ? Possible.Unproven
            : own == Possible.Met ? Possible.NotApplicable
            : Possible.NotApplicable | Possible.Unproven;
        bool ran = story.Steps.Any(s => IsRun(s) && s.Place <= touch.After);
        return (touch.IsDisordered && told == Possible.NotMet ? Possible.NeverMet : told)
            // What is turned in a run and after it has a rule of its own.
            | (touch.Entry is Adjustment && ran ? Possible.NotApplicable | Possible.Unproven : Possible.None);
    }

    /// <summary>No adjuster while the reel runs, nor between runs before the stop.</summary>
    public static Possible AdjusterUntouched(Story story)
    {
        var turns = story.Record.Units.SelectMany(u => u.Entries.OfType<Adjustment>()).ToList();
        if (turns.Count == 0 || !story.Steps.Any(IsRun))
        {
            return Possible.NotApplicable | Possible.Met;
        }

        var walk = new Walk(story);
        var sum = story
            .Touches.Where(touch => touch.Entry is Adjustment)
            .Select(touch => Turned(story, walk, touch))
            .OfAllOrNone();
        return turns.Exists(turn => turn.At is null) && sum != Possible.NotMet
            ? sum | Possible.Unproven
            : sum;
    }

    private static Possible Turned(Story story, Walk walk, Touch touch)
    {
        var start = story.Steps.LastOrDefault(s => IsRun(s) && s.Place <= touch.After);
        if (start is null)
        {
            return Possible.Met | Possible.NotApplicable;
        }

        bool byControl =
            touch.Entry is Adjustment { Adjuster: AdjusterKind.Clearance }
            && story.InForce?.EnergisedTasks.Any(task => task.AdjusterControl is not null) == true;
        var during =
            start.IsAssumed || story.Steps.Any(s => s.At == touch.At) ? Possible.Judged
            : byControl ? Possible.Judged
            : touch.IsDisordered ? Possible.NeverMet
            : Possible.NotMet;
        if (walk.At(touch.After).Runs)
        {
            return during;
        }

        bool isProtected =
            walk.ControlsAll(touch.After, touch.By) == Possible.Met && walk.IsAllDead(touch.After);
        bool runsAgain = story.Steps.Any(s => IsRun(s) && s.Place > touch.After);
        // To run it before any hands went in, or after all, is no run of the reel for the job.
        bool isPlain = start.Kind == TimelineEventKind.MachineStarted;
        return (isPlain ? Possible.NotApplicable : Possible.None)
            | (
                isProtected ? Possible.Met | Possible.NotApplicable
                : runsAgain && !byControl && !start.IsAssumed ? Possible.NeverMet
                : Possible.Judged
            );
    }

    /// <summary>Everybody with hands in is authorised, by a training that holds.</summary>
    public static Possible PeopleAuthorised(Story story) =>
        story
            .SaidToWork.Concat(story.Workers)
            .Concat(story.Touches.Select(touch => touch.By))
            .Distinct(StringComparer.Ordinal)
            .Select(person =>
                story.Person(person) switch
                {
                    null => Possible.Unproven,
                    { Authorised: false } => Possible.NotMet,
                    { TrainedOn: null } => Possible.Unproven,
                    var known when known.TrainedOn > story.Day || known.TrainedUntil < story.Day =>
                        Possible.NotMet,
                    _ => Possible.Met,
                }
            )
            .OfAllOrNone();

    /// <summary>Bench times follow the order of the log and lie within work.</summary>
    public static Possible TimesAgree(Story story)
    {
        var timed = story
            .Record.Units.SelectMany(u => u.Entries)
            .Where(e => e.At is not null)
            .Select(e => (Entry: e, At: Story.MomentOf(e.At!, story.Context)))
            .ToList();
        if (timed.Count == 0)
        {
            return Possible.Met | Possible.NotApplicable;
        }

        bool outside = timed.Exists(t =>
            t.At is { } at
            && Touch.TakesHands(t.Entry)
            && story.Spells.All(s =>
                s.Person != t.Entry.By?.Text || at < s.Start.At || (s.Stop is { } stop && stop.At < at)
            )
        );
        bool disordered = story.Touches.Any(t => t.IsDisordered);
        bool perhaps =
            timed.Count >= 3
            || story.Spells.Any(s => s.Stop is null)
            || story.StrayStops.Any()
            || !story.HandsWentIn
            || story.Steps.Any(IsRun)
            || timed.Exists(t => t.At is { } at && story.Spells.Any(s => Touch.IsPerhapsIn(at, s)));
        return CredibilityRows.Flag((outside && !perhaps) || disordered, perhaps || outside);
    }

    private static bool IsRun(Step step) =>
        step.Kind is TimelineEventKind.TestEnergised or TimelineEventKind.MachineStarted;
}
