using System.Collections.Immutable;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Duties;
using ServiceRules.Rules.Evaluation.Timeline;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// Everybody works only inside their own protected interval: every source isolated, held by their own lock or control,
/// released and proven dead; nobody at work while the machine runs; pressure that can come back checked in time; devices
/// taken off by whoever put them on.
/// </summary>
internal static class ProtectionCheck
{
    public static CheckOutcome Evaluate(Check.Protection check, Rule rule, JobFrame frame, UnitFrame? unit)
    {
        var reading = TimelineReading.Of(frame);
        var words = reading.Words;
        var protection = reading.Protection;
        var faults = new List<TimelineFault>();
        faults.AddRange(WorkWhileRunning.Faults(reading, words));
        faults.AddRange(OthersWithHandsIn.Faults(DutyFrame.Of(rule, frame)));
        faults.AddRange(RemovalDuties.Faults(DutyFrame.Of(rule, frame)));
        faults.AddRange(HandsByTheLog.Faults(reading, protection, words));
        faults.AddRange(ProofGivenUp.Faults(reading, words));
        if (protection is not null)
        {
            faults.AddRange(WorkUnprotected.Faults(reading, protection, words));
            faults.AddRange(StepsByHand.Faults(reading, protection, words));
            faults.AddRange(RechecksMissed.Faults(reading, protection, words));
        }

        if (protection is null && !faults.Exists(fault => fault.Verdict == Verdict.NotMet))
        {
            return TimelineOutcome.NoProcedure(frame);
        }

        faults.AddRange(WorkNotShown.Faults(reading));
        faults.AddRange(protection is null ? [] : NotInRegister(reading, protection));
        return faults.Count > 0
            ? TimelineOutcome.OfFaults(faults)
            : TimelineOutcome.Met(reading, Shown(reading), RestsOn(reading));
    }

    private static IEnumerable<TimelineFault> NotInRegister(
        TimelineReading reading,
        ProtectionReading protection
    ) =>
        from device in reading.Devices
        where protection.IsNotRegistered(device)
        group device by device.Device into same
        select new TimelineFault(
            Verdict.Unproven,
            FindingReason.NotRegistered,
            $"The register of locks does not have {same.Key}, so the record cannot show whose it is.",
            [same.First().Applied],
            "Enter the lock in the register, or correct its name in the record."
        );

    private static string Shown(TimelineReading reading) =>
        reading.Works.IsEmpty
            ? "The record shows everybody with hands in protected; no hands-on work has started."
            : $"The record shows {TimelineWords.List(reading.Works.Select(work => work.Person.Text).Distinct(StringComparer.Ordinal))} at work only while protected: every source isolated, held and proven dead.";

    private static ImmutableArray<OrderedEvent> RestsOn(TimelineReading reading) =>
        reading.Of(
            TimelineEventKind.IsolatorOperated,
            TimelineEventKind.PlugRemoved,
            TimelineEventKind.PlugControlConfirmed,
            TimelineEventKind.KeyRemoved,
            TimelineEventKind.MachineShutDown,
            TimelineEventKind.TestEnded,
            TimelineEventKind.LockApplied,
            TimelineEventKind.TagApplied,
            TimelineEventKind.LockRemoved,
            TimelineEventKind.TagRemoved,
            TimelineEventKind.StoredEnergyReleased,
            TimelineEventKind.IsolationVerified,
            TimelineEventKind.WorkStarted,
            TimelineEventKind.WorkStopped
        );
}
