using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// Between the proof that everything is dead and the hands that rely on it, the machine is handed back, or cut-outs are tried, which
/// takes a machine that runs: what was proven is not shown to have stayed.
/// </summary>
internal static class ProofGivenUp
{
    public static IEnumerable<TimelineFault> Faults(TimelineReading reading, TimelineWords words) =>
        from entry in reading.Of(TimelineEventKind.CutOutsProved, TimelineEventKind.HandedBack)
        where !reading.Running.Contains(entry.Place()) && !reading.AnyWork.Contains(entry.Place())
        let proven = Last(reading, entry)
        where proven?.Event.Kind == TimelineEventKind.IsolationVerified
        let next = reading.Works.FirstOrDefault(work => work.Start.Place() > entry.Place())
        where next is not null && Last(reading, next.Start) == proven
        select new TimelineFault(
            Verdict.Unproven,
            FindingReason.StepMissing,
            $"The record shows {EventWords.Done(entry.Event.Kind)} {words.AtBy(entry)}, after {EventWords.Done(proven.Event.Kind)} at {words.Time(proven)}, and {next.Person} starting work at {words.Time(next.Start)} with nothing verified since: it does not show {Unsaid(entry)}.",
            [proven, entry, next.Start],
            "Ask what was done with the machine then; verify again before hands go in."
        );

    private static OrderedEvent? Last(TimelineReading reading, OrderedEvent before) =>
        reading
            .Of(
                TimelineEventKind.IsolationVerified,
                TimelineEventKind.TestEnergised,
                TimelineEventKind.TestEnded,
                TimelineEventKind.MachineStarted
            )
            .LastOrDefault(entry => entry.Place() < before.Place());

    private static string Unsaid(OrderedEvent entry) =>
        entry.Event.Kind == TimelineEventKind.CutOutsProved
            ? "how, with the machine held off, nor that it stayed off"
            : "that whoever had it back left it as it was";
}
