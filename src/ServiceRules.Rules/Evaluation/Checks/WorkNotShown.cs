using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>On a finished job: hands-on work whose start or end the record does not show.</summary>
internal static class WorkNotShown
{
    public static IEnumerable<TimelineFault> Faults(TimelineReading reading)
    {
        if (reading.IsOpen)
        {
            yield break;
        }

        foreach (var person in reading.HandsIn.Where(person => reading.FirstWorkOf(person) is null))
        {
            yield return new(
                Verdict.Unproven,
                FindingReason.StepMissing,
                $"The record does not show when {person} worked.",
                [],
                "Enter when hands-on work started and stopped, as a late entry."
            );
        }

        if (reading.HandsIn.IsEmpty)
        {
            yield return new(
                Verdict.Unproven,
                FindingReason.StepMissing,
                "The record names nobody who did the work.",
                [],
                "Name who performed and who assisted."
            );
        }

        foreach (
            var stop in reading.Of(TimelineEventKind.WorkStopped).Where(stop => LacksStart(stop, reading))
        )
        {
            yield return new(
                Verdict.Unproven,
                FindingReason.StepMissing,
                $"The record shows that {stop.Event.Actor} stopped work, and does not show when it started.",
                [stop],
                "Enter when hands-on work started, as a late entry."
            );
        }

        foreach (var work in reading.Works.Where(work => work.Stop is null))
        {
            yield return new(
                Verdict.Unproven,
                FindingReason.StepMissing,
                $"The record does not show when {work.Person} stopped work.",
                [work.Start],
                "Enter when hands-on work stopped, as a late entry."
            );
        }
    }

    /// <summary>
    /// An end of work that closes no stretch. A second entry of the same end is none; one after the machine ran is.
    /// </summary>
    private static bool LacksStart(OrderedEvent stop, TimelineReading reading)
    {
        if (reading.Works.Any(work => work.Stop?.Index == stop.Index))
        {
            return false;
        }

        var before = reading
            .Works.Where(work => work.Person == stop.Event.Actor)
            .Select(work => work.Stop)
            .OfType<OrderedEvent>()
            .LastOrDefault(ended => ended.Place() < stop.Place());
        return before is null
            || reading.Energisings.Any(ran => ran.Place() > before.Place() && ran.Place() < stop.Place());
    }
}
