using System.Collections.Immutable;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Checks;
using ServiceRules.Rules.Evaluation.Timeline;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// Before every test run: tools clear before the locks come off for it, people clear before it is energised; by somebody
/// authorised, as before a release.
/// </summary>
internal static class TestClearDuties
{
    private const string Act =
        "Clear tools and people before every test run, after everybody's hands are out.";

    /// <summary>Tools and parts clear before the first lock comes off for the test.</summary>
    public static CheckOutcome AreaClear(DutyFrame duty) =>
        Judge(
            duty,
            TimelineEventKind.AreaInspected,
            run =>
                DevicesOn
                    .Removals(duty)
                    .FirstOrDefault(entry =>
                        (run.WorkStopped is not { } stop || entry.Place() > stop.Place())
                        && entry.Place() < run.Start.Place()
                    )
                ?? run.Start
        );

    /// <summary>People clear before the machine is energised.</summary>
    public static CheckOutcome PeopleClear(DutyFrame duty) =>
        Judge(duty, TimelineEventKind.PeopleClearChecked, run => run.Start);

    private static CheckOutcome Judge(
        DutyFrame duty,
        TimelineEventKind kind,
        Func<MachineRun, OrderedEvent> until
    )
    {
        var runs = MachineRun.Tests(duty).Where(run => run.FollowsControl).ToImmutableArray();
        if (runs.IsEmpty)
        {
            return TimelineOutcome.NotApplicable(
                "The record shows no test run after work or after a lock or tag."
            );
        }

        var what = EventWords.Done(kind);
        var restsOn = new List<OrderedEvent>();
        var faults = new List<TimelineFault>();
        foreach (var run in runs)
        {
            var limit = until(run);
            var looks = duty
                .Reading.Of(kind)
                .Where(entry =>
                    (run.WorkStopped is not { } stop || entry.Place() > stop.Place())
                    && entry.Place() < limit.Place()
                )
                .ToImmutableArray();
            if (looks.IsEmpty)
            {
                faults.Add(Fault(run, what, limit));
                continue;
            }

            // The last look of somebody who may release the machine counts, unless anybody saw somebody there after it.
            var counting = looks.LastOrDefault(look => Standing(duty, look) is null);
            var clear =
                looks.LastOrDefault(look =>
                    SaidOtherwise.By(look.Event) && (counting is null || look.Place() > counting.Place())
                )
                ?? counting
                ?? looks[^1];
            if (Standing(duty, clear) is { } standing)
            {
                faults.Add(
                    new(
                        standing.Verdict,
                        standing.Reason,
                        $"The record shows {what} before {run.Named} {duty.Words.AtBy(clear)}, {standing.Text}, and by nobody else.",
                        [clear, run.Start],
                        "Have somebody authorised look, before the machine is energised."
                    )
                );
            }

            restsOn.Add(clear);
            faults.AddRange(HandsIn(run, what, clear));
        }

        return faults.Count > 0
            ? TimelineOutcome.OfFaults(faults)
            : TimelineOutcome.Met(
                duty.Reading,
                $"The record shows {what} before {TimelineWords.List(runs.Select(run => run.Named))}.",
                [.. restsOn.Distinct()]
            );
    }

    // The look is that of release, (e)(1) and (e)(2): actions of the authorised employee.
    private static PersonStanding? Standing(DutyFrame duty, OrderedEvent look) =>
        PersonStanding.Lacking(duty.Reading, look.Event.Actor, look.Event.At, PersonAsked.Authorised);

    /// <summary>Whose hands were in, or may have been, between the look and the run: the look was not the last.</summary>
    private static IEnumerable<TimelineFault> HandsIn(MachineRun run, string what, OrderedEvent clear)
    {
        var words = run.Duty.Words;
        var told = $"The record shows {what} at {words.Time(clear)} before {run.Named}";
        var start = run.Start.Place();
        foreach (var work in run.Duty.Reading.Works.Where(work => work.Start.Place() < start))
        {
            if (work.Stop is { } stop && stop.Place() < start)
            {
                continue;
            }

            yield return work.Stop is { } end
                ? new(
                    end.Place().IsInTheMinuteOf(start) ? Verdict.Unproven : Verdict.NotMet,
                    end.Place().IsInTheMinuteOf(start) ? FindingReason.NotCredible : FindingReason.WrongOrder,
                    $"{told}, while {work.Person} was at work from {words.Time(work.Start)} until {words.Time(end)}.",
                    [clear, work.Start, end, run.Start],
                    Act
                )
                : new(
                    Verdict.Unproven,
                    FindingReason.StepMissing,
                    $"{told}, and does not show that {work.Person}, at work from {words.Time(work.Start)}, had stopped by then.",
                    [clear, work.Start, run.Start],
                    "Enter when hands-on work stopped, as a late entry."
                );
        }

        foreach (var stop in run.Duty.Reading.MayHaveBeenIn(clear.Place()))
        {
            yield return new(
                stop.Place() < start ? Verdict.NotMet : Verdict.Unproven,
                stop.Place() < start ? FindingReason.WrongOrder : FindingReason.StepMissing,
                $"{told}, and {stop.Event.Actor} at work until {words.Time(stop)}, but not from when.",
                [clear, stop, run.Start],
                Act
            );
        }
    }

    private static TimelineFault Fault(MachineRun run, string what, OrderedEvent limit)
    {
        var words = run.Duty.Words;
        var since = run.WorkStopped is { } stop
            ? $"between the end of work at {words.Time(stop)} and"
            : "before";
        var then =
            limit == run.Start
                ? run.Named
                : $"{EventWords.Done(limit.Event.Kind)} at {words.Time(limit)} for {run.Named}";
        return new(
            Verdict.NotMet,
            FindingReason.StepMissing,
            $"The record does not show {what} {since} {then}.",
            [.. new[] { run.WorkStopped, limit, run.Start }.OfType<OrderedEvent>().Distinct()],
            Act
        );
    }
}
