using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>Which steps before hands-on work a run of the machine undoes.</summary>
internal static class UndoneByRun
{
    /// <summary>What must come after the machine last ran, to count for the work that follows.</summary>
    public static bool Counts(
        TimelineReading reading,
        OrderedEvent ran,
        RequiredStep step,
        TimelineEventKind kind
    ) =>
        MustBeDoneAgain(reading, ran, step, kind)
        || kind
            is TimelineEventKind.MachineShutDown
                or TimelineEventKind.IsolatorOperated
                or TimelineEventKind.PlugRemoved
                or TimelineEventKind.PlugControlConfirmed
                or TimelineEventKind.StoredEnergyReleased
                or TimelineEventKind.IsolationVerified;

    /// <summary>
    /// What is asked again after each run: not shutting down, a duty of its own, nor isolation and proof, which the duty after a test
    /// run asks for source by source.
    /// </summary>
    public static bool MustBeDoneAgain(
        TimelineReading reading,
        OrderedEvent ran,
        RequiredStep step,
        TimelineEventKind kind
    ) =>
        step.IsSupportOnTheMachine(kind)
        || kind
            is TimelineEventKind.DriveDisengaged
                or TimelineEventKind.UnitsLowered
                or TimelineEventKind.ParkingBrakeSet
                or TimelineEventKind.KeyRemoved
                or TimelineEventKind.SeenAtRest
                or TimelineEventKind.ReelWedged
        || (kind == TimelineEventKind.GlovesWorn && reading.GlovesOff.Contains(ran.Index));
}
