using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// Guards of a unit that its bench log finds faulty are a safety defect, whatever the task and whether or not anything asks for
/// a look at them. A guard fitted since, or the guards seen sound after it, puts them right.
/// </summary>
internal static class FaultyGuards
{
    private const string Act = "Put the guards right and enter them as seen sound, or keep the machine in.";

    public static IEnumerable<TimelineFault> Of(TimelineReading reading)
    {
        var mayStillBeMended = reading.IsOpen && reading.Of(TimelineEventKind.HandedBack).IsEmpty;
        var closed = reading.Of(TimelineEventKind.SafetyDefectClosed).LastOrDefault();
        foreach (var fault in SaidToBeOff(reading))
        {
            yield return fault;
        }

        foreach (var unit in reading.Frame.Units)
        {
            var left = unit.Of(MeasuredQuantity.Guards)?.Left ?? [];
            foreach (var place in left.Where(place => place.State is not KnownState.Stale))
            {
                if (place.Condition is Condition.Faulty && closed is not null)
                {
                    yield return new(
                        Verdict.Unproven,
                        FindingReason.StepMissing,
                        $"The record shows the guards of {unit.Work.Id} found faulty, and a safety defect put right {reading.Words.AtBy(closed)}; it does not show that it was the guards.",
                        [closed],
                        Act,
                        place.Evidence
                    );
                }
                else if (place.Condition is Condition.Faulty)
                {
                    yield return new(
                        mayStillBeMended ? Verdict.Unproven : Verdict.NotMet,
                        mayStillBeMended ? FindingReason.InProgress : FindingReason.Faulty,
                        $"The record shows the guards of {unit.Work.Id} found faulty, and does not show them put right.",
                        [],
                        Act,
                        place.Evidence
                    );
                }
                else if (place.State is KnownState.Conflicting)
                {
                    yield return new(
                        Verdict.Unproven,
                        FindingReason.Conflicting,
                        $"The record shows the guards of {unit.Work.Id} both faulty and sound, with nothing done to them between.",
                        [],
                        "Look at the guards again; enter the part that was fitted, or a safety defect found and put right.",
                        place.Evidence
                    );
                }
            }
        }
    }

    // A guard that was fitted, and whose own note has one off: the last of a unit that says anything of its guards.
    private static IEnumerable<TimelineFault> SaidToBeOff(TimelineReading reading)
    {
        var units = reading.Frame.Record.Units;
        for (var unit = 0; unit < units.Length; unit++)
        {
            var entries = units[unit].Entries;
            var last = entries.Length - 1;
            while (
                last >= 0
                && entries[last]
                    is not (
                        PartFitted { Part: PartKind.Guard }
                        or Reading { Quantity: MeasuredQuantity.Guards }
                    )
            )
            {
                last--;
            }

            if (last >= 0 && entries[last] is PartFitted { Note: { } note } && DeniedStep.SaysGuardsOff(note))
            {
                yield return new(
                    Verdict.Unproven,
                    FindingReason.NotCredible,
                    $"The record shows a guard fitted on {units[unit].Id}, and its note says `{note}`.",
                    [],
                    Act,
                    [Pointers.Entry(unit, last)]
                );
            }
        }
    }
}
