using System.Collections.Immutable;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// Steps required before the first hands-on work: of everybody, or of each person for a step required of each. A step
/// that running the machine undoes must come after the machine last ran, and again after every run before hands go in.
/// </summary>
internal static class StepsBeforeWork
{
    public static CheckOutcome Judge(Check.RequiredEvent check, TimelineReading reading)
    {
        var steps = RequiredStep.Of(check, reading);
        if (steps.IsEmpty)
        {
            return TimelineOutcome.NobodyNamed();
        }

        var words = reading.Words;
        var faults = new List<TimelineFault>();
        var restsOn = new List<OrderedEvent>();
        foreach (var step in steps)
        {
            JudgeStep(step, reading, words, faults, restsOn);
        }

        faults.AddRange(PersonStanding.Faults(reading, restsOn, check.By));
        if (faults.Count > 0)
        {
            return TimelineOutcome.OfFaults(faults);
        }

        var met = TimelineOutcome.Met(reading, Shown(check, steps, reading, words, restsOn), restsOn);
        return met with
        {
            Notices =
            [
                .. met.Notices,
                .. restsOn
                    .Select(entry => entry.Event.Actor)
                    .Distinct()
                    .SelectMany(person => PersonStanding.Notices(reading, person, check.By)),
            ],
        };
    }

    private static void JudgeStep(
        RequiredStep step,
        TimelineReading reading,
        TimelineWords words,
        List<TimelineFault> faults,
        List<OrderedEvent> restsOn
    )
    {
        var work = step.Person is { } person ? reading.FirstWorkOf(person) : reading.FirstWork;
        if (IsTurnToCome(step, reading))
        {
            return;
        }

        JudgeBefore(step, work, null, reading, words, faults, restsOn);
        foreach (var again in WorkAfterRun.Of(reading, step))
        {
            JudgeBefore(step, again.Work, again.Ran, reading, words, faults, restsOn);
        }
    }

    /// <summary>One stretch of work; <c>ran</c> is the run that it follows, or null before the first of all.</summary>
    private static void JudgeBefore(
        RequiredStep step,
        WorkInterval? work,
        OrderedEvent? ran,
        TimelineReading reading,
        TimelineWords words,
        List<TimelineFault> faults,
        List<OrderedEvent> restsOn
    )
    {
        var missing = new List<EnergySource?>();
        foreach (var source in step.Sources.IsEmpty ? [null] : step.Sources.Cast<EnergySource?>())
        {
            var (isShown, entry) = step.IsOwnControl
                ? OwnControl(step, source!, work, reading)
                : FirstInTime(step, source, work, reading);
            if (entry is not null && !restsOn.Contains(entry))
            {
                restsOn.Add(entry);
            }

            if (!isShown)
            {
                missing.Add(source);
            }
        }

        if (missing.Count > 0)
        {
            faults.AddRange(Faults(step, missing, work, ran, reading, words));
        }
        else if (work is null && ran is null && !reading.IsOpen)
        {
            faults.Add(WorkNotShown(step, restsOn));
        }
    }

    /// <summary>On an open job others are at work, and this person is not yet.</summary>
    private static bool IsTurnToCome(RequiredStep step, TimelineReading reading) =>
        reading.IsOpen
        && !reading.Works.IsEmpty
        && step.Person is { } person
        && reading.FirstWorkOf(person) is null;

    private static (bool IsShown, OrderedEvent? Entry) FirstInTime(
        RequiredStep step,
        EnergySource? source,
        WorkInterval? work,
        TimelineReading reading
    )
    {
        var until = work?.Start.Place();
        // A finished job that shows no work shows no steps that a run undid before it: the run may have come after.
        var runs =
            until is null && !reading.IsOpen
                ? []
                : reading.Energisings.Where(ran => until is null || ran.Place() < until).ToList();
        var undone = step
            .Check.Events.Select(kind =>
                (Kind: kind, Ran: runs.FindLast(ran => UndoneByRun.Counts(reading, ran, step, kind))?.Place())
            )
            .Where(one => one.Ran is not null)
            .DistinctBy(one => one.Kind)
            .ToDictionary(one => one.Kind, one => one.Ran!.Value);
        var inTime = step.Entries(reading, source)
            .Where(entry => until is null || entry.Place() < until)
            .Where(entry => !undone.TryGetValue(entry.Event.Kind, out var ran) || entry.Place() > ran)
            .ToList();
        // What is denied last is not shown by what stands before it.
        var first =
            inTime is [.., var last] && SaidOtherwise.By(last.Event)
                ? last
                : inTime.Find(entry =>
                    !SaidOtherwise.By(entry.Event) && !reading.Weakened.Contains(entry.Pointer())
                ) ?? inTime.FirstOrDefault();
        return (first is not null, first);
    }

    private static (bool IsShown, OrderedEvent? Entry) OwnControl(
        RequiredStep step,
        EnergySource source,
        WorkInterval? work,
        TimelineReading reading
    )
    {
        var control = reading.Protection!.ControlOf(step.Person!.Value, source);
        var stretch = work is null
            ? control.Intervals.FirstOrDefault(interval => interval.Until is null)
            : control.StretchAt(work.Start.Place()) ?? default;
        var entry = reading.Events.FirstOrDefault(entry => entry.Place() == stretch.From);
        return (entry is not null, entry);
    }

    private static IEnumerable<TimelineFault> Faults(
        RequiredStep step,
        List<EnergySource?> missing,
        WorkInterval? work,
        OrderedEvent? ran,
        TimelineReading reading,
        TimelineWords words
    )
    {
        var sources = missing.OfType<EnergySource>().ToList();
        if (work is null)
        {
            yield return ran is not null ? NotYetAgain(step, sources, ran, words)
            : reading.IsOpen ? NotYet(step, sources)
            : NeverShown(step, sources);
            yield break;
        }

        var since = ran is null
            ? string.Empty
            : $" again after {EventWords.Done(ran.Event.Kind)} at {words.Time(ran)}{Off(step)}, and";
        OrderedEvent[] rests = ran is null ? [work.Start] : [ran, work.Start];

        var began =
            $"{(step.Person is { } person ? person.Text + " started work" : "work started")} at {words.Time(work.Start)}";
        var late = missing
            .Select(source => (source, entry: FirstAfter(step, source, work, reading)))
            .Where(found => found.entry is not null)
            .ToList();
        foreach (var together in late.GroupBy(found => found.entry!))
        {
            List<EnergySource> lateSources =
            [
                .. together.Select(found => found.source).OfType<EnergySource>(),
            ];
            yield return new(
                Verdict.NotMet,
                FindingReason.WrongOrder,
                ran is null
                    ? $"The record shows {step.Words}{RequiredStep.For(lateSources)} {words.OnlyAt(together.Key, work.Start)} {began}."
                    : $"After {EventWords.Done(ran.Event.Kind)} at {words.Time(ran)} the record shows {step.Words}{RequiredStep.For(lateSources)} again {words.OnlyAt(together.Key, work.Start)} {began}.",
                [.. rests, together.Key],
                "Stop work and make safe before hands go in again."
            );
        }

        var never = missing.Except(late.Select(found => found.source)).ToList();
        if (never.Count > 0)
        {
            yield return new(
                Verdict.NotMet,
                FindingReason.StepMissing,
                $"The record does not show {step.Words}{RequiredStep.For([.. never.OfType<EnergySource>()])}{since} before {began}.",
                [.. rests],
                "Stop work and make safe before hands go in again."
            );
        }
    }

    // Nobody reads out of a missing pair of gloves why they had to come off.
    private static string Off(RequiredStep step) =>
        step.Check.Events.Contains(TimelineEventKind.GlovesWorn)
            ? " with no gloves near the turning reel"
            : string.Empty;

    private static OrderedEvent? FirstAfter(
        RequiredStep step,
        EnergySource? source,
        WorkInterval work,
        TimelineReading reading
    ) => step.Entries(reading, source).FirstOrDefault(entry => entry.Place() > work.Start.Place());

    private static TimelineFault NotYet(RequiredStep step, List<EnergySource> sources) =>
        TimelineFault.NotYet(
            step.Words + RequiredStep.For(sources),
            "Do it, and enter it, before touching the unit."
        );

    private static TimelineFault NotYetAgain(
        RequiredStep step,
        List<EnergySource> sources,
        OrderedEvent ran,
        TimelineWords words
    ) =>
        TimelineFault.NotYet(
            step.Words + RequiredStep.For(sources),
            "Do it, and enter it, before hands go in again.",
            [ran],
            by: "Do it before hands go in again",
            of: $"since {EventWords.Done(ran.Event.Kind)} at {words.Time(ran)}"
        );

    private static TimelineFault NeverShown(RequiredStep step, List<EnergySource> sources) =>
        new(
            Verdict.NotMet,
            FindingReason.StepMissing,
            $"The record does not show {step.Words}{RequiredStep.For(sources)}.",
            [],
            "Ask whoever did the work; enter what they say as a late entry, labelled as such."
        );

    private static TimelineFault WorkNotShown(RequiredStep step, List<OrderedEvent> restsOn) =>
        new(
            Verdict.Unproven,
            FindingReason.StepMissing,
            $"The record shows {step.Words}, but not when hands-on work{(step.Person is { } person ? $" of {person}" : string.Empty)} started.",
            [.. restsOn],
            "Enter when hands-on work started and stopped, as a late entry."
        );

    private static string Shown(
        Check.RequiredEvent check,
        ImmutableArray<RequiredStep> steps,
        TimelineReading reading,
        TimelineWords words,
        List<OrderedEvent> restsOn
    )
    {
        var before = reading.FirstWork is { } work
            ? $", before work started at {words.Time(work.Start)}."
            : ". No hands-on work has started.";
        var people = steps
            .Where(step => !IsTurnToCome(step, reading))
            .Select(step => step.Person?.Text ?? string.Empty);
        var what = check.Per switch
        {
            RequiredPer.Job when restsOn is [var only] =>
                $"{EventWords.Done(only.Event.Kind)} {words.AtBy(only)}",
            RequiredPer.Source => $"{steps[0].Words}{RequiredStep.For(steps[0].Sources)}",
            RequiredPer.Job => EventWords.AnyOf(check.Events),
            _ when steps.Any(step => step.IsOwnControl) =>
                $"{TimelineWords.List(people.Select(person => person + "'s"))} own lock or control{RequiredStep.For(steps[0].Sources)}",
            _ =>
                $"{EventWords.AnyOf(check.Events)} by {TimelineWords.List(people)}{RequiredStep.For(steps[0].Sources)}",
        };
        return $"The record shows {what}{before}";
    }
}
