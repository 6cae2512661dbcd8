using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Checks;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// Every lock shows who put it on: it is issued to that person. A job lock, issued to nobody, shows it only where the
/// record names whoever hung it as in charge.
/// </summary>
internal static class DeviceShowsOwnerDuty
{
    private const string Act = "Hang your own lock, with your name on it.";

    public static CheckOutcome Judge(DutyFrame duty)
    {
        var hangings = JobPeople.LockHangings(duty);
        if (hangings.IsEmpty)
        {
            return TimelineOutcome.NotApplicable("The record shows no lock put on.");
        }

        // Who it was rests on no time: doubtful times take nothing from it.
        var faults = hangings.Select(hanging => Fault(duty, hanging)).OfType<TimelineFault>().ToList();
        return faults.Count == 0
            ? Told.Met("The register shows every lock issued to whoever put it on.", hangings.Evidence())
            : TimelineOutcome.OfFaults(faults);
    }

    private static TimelineFault? Fault(DutyFrame duty, OrderedEvent hanging)
    {
        var device = hanging.Event.Lock!.Value;
        var actor = hanging.Event.Actor;
        var put = $"was put on {duty.Words.AtBy(hanging)}";
        return duty.LockOf(device) switch
        {
            null => new(
                Verdict.Unproven,
                FindingReason.NotRegistered,
                $"Lock {device} {put}, and the register does not have it, so nothing shows whose it is.",
                [hanging],
                "Enter the lock and its owner in the register."
            ),
            { Owner: { } owner } when owner != actor => Wrong(
                $"Lock {device} {put} and is issued to {owner}.",
                hanging
            ),
            { Owner: null } when !JobPeople.InCharge(duty).Contains(actor) => Wrong(
                $"Lock {device} {put}; it is issued to nobody, and the record does not name {actor} as in charge.",
                hanging
            ),
            _ => null,
        };
    }

    private static TimelineFault Wrong(string text, OrderedEvent hanging) =>
        new(Verdict.NotMet, FindingReason.WrongPerson, text, [hanging], Act);
}
