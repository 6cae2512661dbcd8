using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>Gloves are for a reel at rest: put on while it turns, they draw the hand in.</summary>
internal static class GlovesDuty
{
    public static CheckOutcome Judge(DutyFrame duty)
    {
        var runs = MachineRun.Of(duty);
        if (runs.IsEmpty)
        {
            return TimelineOutcome.NotApplicable("The record shows no run of the reel.");
        }

        var faults =
            from entry in duty.Reading.Of(TimelineEventKind.GlovesWorn)
            let run = runs.FirstOrDefault(run => run.Interval.Contains(entry.Place()))
            where run is not null
            select new TimelineFault(
                Verdict.NotMet,
                FindingReason.ProcedureNotFollowed,
                $"The record shows {EventWords.Done(entry.Event.Kind)} {duty.Words.AtBy(entry)}, while the reel was running ({run.Named}).",
                [entry, run.Start],
                "No gloves near a turning reel: they draw the hand in. Gloves on only at rest, locked and wedged."
            );
        var ofJob = runs.Where(run => run.IsOfJob).ToImmutableArray();
        List<TimelineFault> found = [.. faults, .. LeftOn(duty, ofJob)];
        return found.Count > 0 ? TimelineOutcome.OfFaults(found)
            : ofJob.IsEmpty ? TimelineOutcome.NotApplicable("The record shows no run of the reel in the job.")
            : TimelineOutcome.Met(
                duty.Reading,
                $"The record shows no gloves put on during {TimelineWords.List(ofJob.Select(run => run.Named))}.",
                [.. ofJob.Select(run => run.Start)]
            );
    }

    // Put on with nothing left to do by hand before the reel turns: for the reel that turns, by all that is shown.
    private static IEnumerable<TimelineFault> LeftOn(DutyFrame duty, ImmutableArray<MachineRun> runs) =>
        from entry in duty.Reading.Of(TimelineEventKind.GlovesWorn)
        let run = runs.FirstOrDefault(run => run.Start.Place() > entry.Place())
        where run is { IsStartMissing: false } && !AreUsed(duty, entry, run)
        select new TimelineFault(
            Verdict.Unproven,
            FindingReason.StepMissing,
            $"The record shows {EventWords.Done(entry.Event.Kind)} {duty.Words.AtBy(entry)}, with nothing done by hand between that and {run.Named}, and does not show them off by then.",
            [entry, run.Start],
            "Gloves off before the reel is run; have whoever wore them say when, as a late entry."
        );

    private static bool AreUsed(DutyFrame duty, OrderedEvent gloves, MachineRun run)
    {
        var until = new TimelineInterval(gloves.Place(), run.Start.Place());
        return Wearers(gloves)
            .Any(person =>
                duty.Reading.Works.Any(work => work.Person == person && !work.Interval.Overlap(until).IsEmpty)
                || duty.Reading.Events.Any(entry =>
                    entry.Event.Actor == person
                    && HandsInRun.IsDoneAtTheUnit(entry.Event.Kind)
                    && until.Contains(entry.Place())
                )
                || duty.Reading.MayHaveBeenIn(gloves.Place()).Any(stop => stop.Event.Actor == person)
            );
    }

    private static IEnumerable<Id<Participant>> Wearers(OrderedEvent gloves) =>
        [gloves.Event.Actor, .. gloves.Event.Others];
}
