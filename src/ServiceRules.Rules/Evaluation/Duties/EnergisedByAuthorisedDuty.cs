using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Checks;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// Whoever runs the machine in the middle of a job, for a test or for a task on the running reel, is authorised by a
/// training that holds on that day; where the procedure names who may run it for the task, one of those. Who starts it
/// when the job is over is no matter of this duty.
/// </summary>
internal static class EnergisedByAuthorisedDuty
{
    private const string Act =
        "Only somebody authorised, or named for it in the procedure, starts the machine while a job goes on.";

    public static CheckOutcome Judge(DutyFrame duty)
    {
        var runs = Runs(duty).ToImmutableArray();
        if (runs.IsEmpty)
        {
            return TimelineOutcome.NotApplicable("The record shows no run of the machine during the job.");
        }

        // Who it was rests on no time: doubtful times take nothing from it.
        var faults = runs.Select(run => Fault(duty, run)).OfType<TimelineFault>().ToList();
        return faults.Count == 0
            ? Told.Met(
                $"The record shows the machine run during the job by {Names(runs)}, whom the register shows as authorised or the procedure names for it.",
                runs.Select(run => run.Entry).ToImmutableArray().Evidence()
            )
            : TimelineOutcome.OfFaults(faults);
    }

    private static string Names(ImmutableArray<Run> runs) =>
        TimelineWords.List(runs.Select(run => run.Person.Text).Distinct(StringComparer.Ordinal));

    private static IEnumerable<Run> Runs(DutyFrame duty)
    {
        var runs = MachineRun.OfJob(duty);
        foreach (var run in runs)
        {
            yield return new(run.Start, run.IsTask ? run.Task : null);
        }

        foreach (var done in duty.Reading.Of(TimelineEventKind.EnergisedTaskPerformed))
        {
            var run = runs.FirstOrDefault(run => run.Interval.Contains(done.Place()));
            if (run is null || run.Start.Event.Actor != done.Event.Actor)
            {
                yield return new(
                    done,
                    done.Event.Task
                        ?? run?.Task
                        ?? (duty.Record.Tasks.Contains(ServiceTask.Lap) ? ServiceTask.Lap : null)
                );
            }
        }
    }

    private static TimelineFault? Fault(DutyFrame duty, Run run)
    {
        var person = run.Person;
        var told = $"The record shows {EventWords.Done(run.Entry.Event.Kind)} {duty.Words.AtBy(run.Entry)}";
        if (
            EnergisedTaskDuties.Listed(duty, run.Task) is { Operators: { IsEmpty: false } named } task
            && duty.Procedure is { } procedure
        )
        {
            return named.Contains(person)
                ? null
                : Wrong(
                    FindingReason.ProcedureNotFollowed,
                    $"{told}; for {TaskWords.Of(task.Task)} procedure {procedure.Id} names {TimelineWords.List(named.Select(one => one.Text))}."
                );
        }

        if (run.Entry.Event.Kind == TimelineEventKind.TestEnded)
        {
            return new(
                Verdict.Unproven,
                FindingReason.StepMissing,
                $"{told}, and does not show who energised the machine for it.",
                [run.Entry],
                "Enter who energised the machine and when, as a late entry."
            );
        }

        var day = JobPeople.DayOf(duty, run.Entry);
        return duty.PersonOf(person) switch
        {
            null => new(
                Verdict.Unproven,
                FindingReason.NotRegistered,
                $"{told}, {Authorities.Against(Authority.NotKnown)}.",
                [run.Entry],
                "Enter the person in the register."
            ),
            { Authorised: false } => Wrong(
                FindingReason.WrongPerson,
                $"{told}, {Authorities.Against(Authority.Denied)}."
            ),
            { } when JobPeople.IsOnlyAffected(duty, person) => Wrong(
                FindingReason.WrongPerson,
                $"{told}, whom the record has as affected by the work and with no part in it."
            ),
            { TrainedOn: { } on } when on > day => Wrong(
                FindingReason.OutOfDate,
                $"{told}, who was trained only on {RegisterOutcome.Day(on)}."
            ),
            { TrainedUntil: { } until } when until < day => Wrong(
                FindingReason.OutOfDate,
                $"{told}, whose training held until {RegisterOutcome.Day(until)}."
            ),
            _ => null,
        };

        TimelineFault Wrong(FindingReason reason, string text) =>
            new(Verdict.NotMet, reason, text, [run.Entry], Act);
    }

    private sealed record Run(OrderedEvent Entry, ServiceTask? Task)
    {
        public Id<Participant> Person => Entry.Event.Actor;
    }
}
