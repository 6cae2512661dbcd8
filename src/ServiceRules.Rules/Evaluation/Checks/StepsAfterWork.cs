using System.Collections.Immutable;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Duties;
using ServiceRules.Rules.Evaluation.Timeline;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// Steps required after the last hands-on work, and before the machine is started or handed back. Looking round and
/// seeing people clear are required again before every test run.
/// </summary>
internal static class StepsAfterWork
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
        var early = GuardsAtTheEnd.Of(check, reading, reading.EndOfWork());
        foreach (var step in steps)
        {
            JudgeStep(step, reading, words, early, faults, restsOn);
        }

        if (check is { Per: RequiredPer.Job } && check.Events.Any(IsRequiredBeforeTests))
        {
            faults.AddRange(BeforeTests(check, reading, words));
        }

        faults.AddRange(PersonStanding.Faults(reading, restsOn, check.By));
        return faults.Count > 0
            ? TimelineOutcome.OfFaults(faults)
            : TimelineOutcome.Met(
                reading,
                $"The record shows {EventWords.AnyOf(check.Events)}{(restsOn is [var only] ? " " + words.AtBy(only) : string.Empty)}, {(early is { IsLastAct: true } && restsOn.Contains(early.Refitted) ? "as the last act of the work" : "after the work ended")}.",
                restsOn
            );
    }

    private static void JudgeStep(
        RequiredStep step,
        TimelineReading reading,
        TimelineWords words,
        GuardsAtTheEnd? early,
        List<TimelineFault> faults,
        List<OrderedEvent> restsOn
    )
    {
        var end = reading.EndOfWork(step.Person);
        var after = end ?? LastStart(step, reading);
        var limit = reading.Events.FirstOrDefault(entry =>
            IsLimit(step.Check, entry.Event.Kind)
            && (after is null ? !IsBeforeAnyWork(reading, entry) : entry.Place() > after.Place())
        );
        foreach (var source in step.Sources.IsEmpty ? [null] : step.Sources.Cast<EnergySource?>())
        {
            var found = step.Entries(reading, source)
                .Where(entry =>
                    after is null
                    || entry.Place() > after.Place()
                    || (early is { IsLastAct: true } && entry == early.Refitted)
                )
                .ToList();
            var timely = found.FindAll(entry => limit is null || entry.Place() < limit.Place());
            var inTime =
                timely is [.., var last]
                && DeniedStep.Kinds.Contains(last.Event.Kind)
                && SaidOtherwise.By(last.Event)
                    ? last
                    : timely.Find(entry =>
                        !SaidOtherwise.By(entry.Event) && DeadProof.Fault(reading, entry, end) is null
                    ) ?? timely.FirstOrDefault();
            if (inTime is not null && end is not null)
            {
                restsOn.Add(inTime);
                if (DeadProof.Fault(reading, inTime, end) is { } dead)
                {
                    faults.Add(dead);
                }
            }
            else
            {
                var late = inTime is null ? found.FirstOrDefault() : null;
                var fault = Fault(step, source, reading, words, end, inTime ?? late, limit);
                faults.Add(early is null ? fault : Named(fault, step, early, words));
            }
        }
    }

    // Guards that were back before the work was over are named, with what of it came after them.
    private static TimelineFault Named(
        TimelineFault fault,
        RequiredStep step,
        GuardsAtTheEnd early,
        TimelineWords words
    )
    {
        if (fault.Verdict != Verdict.NotMet || early.IsLastAct)
        {
            return fault;
        }

        var named = fault with
        {
            Text =
                $"{fault.Text} It shows {step.Words} {words.AtBy(early.Refitted)}, {(early.IsUntold ? "in one minute with" : "and after that")} {early.Since}.",
            Entries = [.. fault.Entries, early.Refitted],
        };
        return early.IsUntold ? LeadUpOutcome.Untold(named) : named;
    }

    private static TimelineFault Fault(
        RequiredStep step,
        EnergySource? source,
        TimelineReading reading,
        TimelineWords words,
        OrderedEvent? end,
        OrderedEvent? found,
        OrderedEvent? limit
    )
    {
        var what = step.Words + RequiredStep.For(source is null ? [] : [source]);
        var isTooLate = found is not null && limit is not null && found.Place() > limit.Place();
        var started = limit is null
            ? string.Empty
            : $"{EventWords.Done(limit.Event.Kind)} at {words.Time(limit)}";
        ImmutableArray<OrderedEvent> entries = [.. new[] { end, found, limit }.OfType<OrderedEvent>()];
        return (found, limit) switch
        {
            (not null, not null) when isTooLate => new(
                Verdict.NotMet,
                FindingReason.WrongOrder,
                $"The record shows {what} {words.OnlyAt(found, limit)} it shows {started}.",
                entries,
                "Take the machine out of use until it is done and seen to."
            ),
            (null, not null) => new(
                Verdict.NotMet,
                FindingReason.StepMissing,
                $"The record does not show {what} between the work and {started}.",
                entries,
                "Take the machine out of use until it is done and seen to."
            ),
            // To be done before itself says nothing.
            _ when reading.IsOpen && step.Check.Events.All(kind => kind == TimelineEventKind.HandedBack) =>
                TimelineFault.NotYet(
                    $"{what}, after the work",
                    "Hand it back when all else is done, and enter it.",
                    entries,
                    by: null
                ),
            _ when reading.IsOpen => TimelineFault.NotYet(
                $"{what}, after the work and before {Until(step.Check)}",
                $"Do it after the work, before {Until(step.Check)}.",
                entries,
                by: null
            ),
            (null, _) => new(
                Verdict.NotMet,
                FindingReason.StepMissing,
                $"The record does not show {what} after the work.",
                entries,
                "Do it, and enter it as what it is: done later."
            ),
            _ => new(
                Verdict.Unproven,
                FindingReason.StepMissing,
                $"The record shows {what} at {words.Time(found)}, but not when hands-on work ended.",
                entries,
                "Enter when hands-on work started and stopped, as a late entry."
            ),
        };
    }

    private static IEnumerable<TimelineFault> BeforeTests(
        Check.RequiredEvent check,
        TimelineReading reading,
        TimelineWords words
    )
    {
        foreach (var test in reading.Energisings.Where(start => start.IsTestRun()))
        {
            var stopped = reading
                .EndsOfWork.Where(stop => stop.Place() < test.Place())
                .MaxBy(stop => stop.Place());
            var shown = reading
                .Events.Where(entry =>
                    check.Events.Contains(entry.Event.Kind)
                    && entry.Place() > stopped?.Place()
                    && entry.Place() < test.Place()
                )
                .ToList();
            if (shown is [.., var last] && SaidOtherwise.By(last.Event))
            {
                yield return new(
                    Verdict.Unproven,
                    FindingReason.NotCredible,
                    $"The record shows {EventWords.Done(last.Event.Kind)} {words.AtBy(last)}, before the test run at {words.Time(test)}, and {SaidOtherwise.Told(last)}.",
                    [last, test],
                    "Clear tools and people before every test run."
                );
            }

            var isClear =
                stopped is null
                || reading.Energisings.Any(start =>
                    start.Place() > stopped.Place() && start.Place() < test.Place()
                )
                || shown.Count > 0;
            if (!isClear)
            {
                yield return new(
                    Verdict.NotMet,
                    FindingReason.StepMissing,
                    $"The record does not show {EventWords.AnyOf(check.Events)} between the end of work at {words.Time(stopped!)} and the test run at {words.Time(test)}.",
                    [stopped!, test],
                    "Clear tools and people before every test run."
                );
            }
        }
    }

    // On a job that goes on, a machine driven in or lapped first was started before the work that is still to come.
    private static bool IsBeforeAnyWork(TimelineReading reading, OrderedEvent entry) =>
        reading is { IsOpen: true, HandsByTheLog.IsEmpty: true }
        && entry.Event.Kind == TimelineEventKind.MachineStarted;

    private static OrderedEvent? LastStart(RequiredStep step, TimelineReading reading) =>
        reading.Works.LastOrDefault(work => step.Person is null || work.Person == step.Person)?.Start;

    private static bool IsRequiredBeforeTests(TimelineEventKind kind) =>
        kind is TimelineEventKind.AreaInspected or TimelineEventKind.PeopleClearChecked;

    // Cut-outs are proved with the machine running, so only handing back ends the time for that.
    // Cut-outs are proved on a machine that runs.
    private static string Until(Check.RequiredEvent check) =>
        IsLimit(check, TimelineEventKind.MachineStarted)
            ? "the machine is started or handed back"
            : "the machine is handed back";

    private static bool IsLimit(Check.RequiredEvent check, TimelineEventKind kind) =>
        kind switch
        {
            _ when check.Events.Contains(kind) => false,
            TimelineEventKind.HandedBack => true,
            TimelineEventKind.MachineStarted => !check.Events.Contains(TimelineEventKind.CutOutsProved)
                && !check.Events.Contains(TimelineEventKind.HandedBack),
            _ => false,
        };
}
