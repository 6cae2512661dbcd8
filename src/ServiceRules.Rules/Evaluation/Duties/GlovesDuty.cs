using System.Collections.Immutable;
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
        var found = faults.ToList();
        var ofJob = runs.Where(run => run.IsOfJob).ToImmutableArray();
        return found.Count > 0 ? TimelineOutcome.OfFaults(found)
            : ofJob.IsEmpty ? TimelineOutcome.NotApplicable("The record shows no run of the reel in the job.")
            : TimelineOutcome.Met(
                duty.Reading,
                $"The record shows no gloves put on during {TimelineWords.List(ofJob.Select(run => run.Named))}.",
                [.. ofJob.Select(run => run.Start)]
            );
    }
}
