using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// A record that calls its work on the bench shows no step that only a machine in one piece can give, and no unit in its place on it. Where it does, the job
/// is judged as on the machine, and this says why.
/// </summary>
internal static class PlaceAsRecordedDuty
{
    private const int MostNamed = 3;

    public static CheckOutcome Judge(DutyFrame duty)
    {
        var against = duty.Job.Events.Where(entry => duty.Job.PlaceAgainst.Contains(entry.Index)).ToList();
        var inPlace = duty.Job.UnitsInPlace;
        if (!inPlace.IsEmpty)
        {
            var units = inPlace.Select(index => duty.Record.Units[index]).ToImmutableArray();
            var byStep =
                against.Count == 0
                    ? string.Empty
                    : $", and {TimelineWords.List(Named(duty, against))}, which only a machine in one piece gives";
            return TimelineOutcome.Of(
                Verdict.NotMet,
                FindingReason.ProcedureNotFollowed,
                $"The record says that the work was on the bench, and shows {TimelineWords.List(units.Take(MostNamed).Select(unit => string.Create(CultureInfo.InvariantCulture, $"{unit.Id} at position {unit.Position} of {duty.Record.Machine.Id}")))}{(units.Length > MostNamed ? " and more in their places" : string.Empty)}{byStep}: it is judged as work on the machine.",
                [
                    .. inPlace
                        .Select(index => $"{Pointers.Unit(index)}/position")
                        .Concat(against.Evidence())
                        .Order(StringComparer.Ordinal),
                ],
                "Enter the place as `on-machine`; where the unit was off it, take its position out, saying why: on the bench it has none."
            );
        }

        if (against.Count == 0 && !duty.Job.PartsOfAMachine.IsEmpty)
        {
            var told = duty.Job.PartsOfAMachine.Select(part =>
                part == "/setting"
                    ? $"{duty.Record.Machine.Id} in use on turf meanwhile"
                    : $"work on electrical parts of {duty.Record.Machine.Id}"
            );
            return TimelineOutcome.Of(
                Verdict.NotMet,
                FindingReason.ProcedureNotFollowed,
                $"The record says that the work was on the bench, and shows {TimelineWords.List(told)}, which no unit off its machine has: it is judged as work on the machine.",
                duty.Job.PartsOfAMachine,
                "Enter the place as `on-machine`; of a unit that was off it, make a record of its own for the bench."
            );
        }

        if (against.Count == 0)
        {
            return duty.Record.Place == WorkPlace.OnBench
                ? TimelineOutcome.Met(
                    duty.Reading,
                    "The record is of work on the bench, and shows no step that only a machine in one piece can give.",
                    []
                )
                : TimelineOutcome.NotApplicable("The record is of work on the machine.");
        }

        var named = Named(duty, against);
        var more =
            against.Count > MostNamed ? $" and more of the kind ({against.Count} entries)" : string.Empty;
        return TimelineOutcome.Of(
            Verdict.NotMet,
            FindingReason.ProcedureNotFollowed,
            $"The record says that the work was on the bench, and shows {TimelineWords.List(named)}{more}, which only {duty.Record.Machine.Id} in one piece gives: it is judged as work on the machine.",
            against.Evidence(),
            "Enter the place as `on-machine`; of a unit that was off it by then, make a record of its own for the bench."
        );
    }

    private static IEnumerable<string> Named(DutyFrame duty, IEnumerable<OrderedEvent> against) =>
        against
            .DistinctBy(entry => entry.Event.Kind)
            .Take(MostNamed)
            .Select(entry => $"{EventWords.Done(entry.Event)} {duty.Words.AtBy(entry)}");
}
