using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// Work that needs the reel to turn, of a record that does not show it turning: lapping by the task, by the bench log or by
/// an entry of its own. Nothing then shows who stood where while it ran.
/// </summary>
internal static class RunNotShown
{
    private const string Act = "Enter when the reel was run and when it was stopped, as late entries.";

    /// <summary>Whether the record says that a reel was lapped.</summary>
    public static bool IsLapping(DutyFrame duty) =>
        duty.Record.Tasks.Contains(ServiceTask.Lap) || !Lapped(duty).IsEmpty;

    /// <summary>On a finished job each such entry, or the task, without a run; on an open one each such entry.</summary>
    public static ImmutableArray<TimelineFault> Faults(DutyFrame duty)
    {
        var runs = MachineRun.OfJob(duty);
        var verdict = duty.Reading.IsOpen ? Verdict.Unproven : Verdict.NotMet;
        var alone = duty
            .Reading.Of(TimelineEventKind.EnergisedTaskPerformed)
            .Where(entry => !runs.Any(run => run.Interval.Contains(entry.Place())))
            .Select(entry => new TimelineFault(
                verdict,
                FindingReason.StepMissing,
                $"The record shows {EventWords.Done(entry.Event.Kind)} {duty.Words.AtBy(entry)}, and no run of the reel that it was done in.",
                [entry],
                Act
            ))
            .ToImmutableArray();
        if (!alone.IsEmpty || !runs.IsEmpty)
        {
            return alone;
        }

        var lapped = Lapped(duty);
        return !IsLapping(duty) || (duty.Reading.IsOpen && lapped.IsEmpty)
            ? []
            :
            [
                new(
                    verdict,
                    FindingReason.StepMissing,
                    "The record says that a reel was lapped, which is done on a turning reel, and does not show the reel run.",
                    [],
                    Act,
                    lapped
                ),
            ];
    }

    private static ImmutableArray<string> Lapped(DutyFrame duty)
    {
        var found = ImmutableArray.CreateBuilder<string>();
        for (var unit = 0; unit < duty.Record.Units.Length; unit++)
        {
            var entries = duty.Record.Units[unit].Entries;
            for (var index = 0; index < entries.Length; index++)
            {
                if (entries[index] is Grinding { Kind: GrindingKind.Lapping })
                {
                    found.Add(Pointers.Entry(unit, index));
                }
            }
        }

        return found.ToImmutable();
    }
}
