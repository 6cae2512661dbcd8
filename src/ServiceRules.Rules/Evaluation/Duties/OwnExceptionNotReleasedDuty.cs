using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>Nobody who stands behind an exception from safe work let out a rule of safe work on that job.</summary>
internal static class OwnExceptionNotReleasedDuty
{
    private const string Act = "Have somebody else, who had no part in the exception, look at it and decide.";

    public static CheckOutcome Judge(DutyFrame duty)
    {
        var own = OwnExceptions.Of(duty.Record);
        if (own.IsEmpty)
        {
            return TimelineOutcome.NotApplicable("The record shows no exception from safe work.");
        }

        return RegisterOutcome.Of(
            Released(duty, own.Contains).Concat(Waived(duty, own.Contains)),
            $"The record shows nothing of safe work let out by {TimelineWords.List(own.Select(person => person.Text).Order(StringComparer.Ordinal))}, who stand behind an exception in it.",
            []
        );
    }

    private static IEnumerable<RegisterFault> Released(DutyFrame duty, Func<Id<Participant>, bool> isOwn) =>
        from release in duty.Record.Releases.Select((release, index) => (release, index))
        where isOwn(release.release.By) && IsOfSafeWork(duty, release.release.Rule)
        select RegisterFault.Wrong(
            FindingReason.WrongPerson,
            $"{release.release.By} stands behind an exception in this job and released `{release.release.Rule}` on it.",
            Act,
            Pointers.Release(release.index)
        );

    private static IEnumerable<RegisterFault> Waived(DutyFrame duty, Func<Id<Participant>, bool> isOwn) =>
        from waiver in duty.Context.Waivers
        where isOwn(waiver.By) && IsInForce(waiver, duty.Record.Date) && IsOfSafeWork(duty, waiver.Rule)
        select RegisterFault.Wrong(
            FindingReason.WrongPerson,
            $"{waiver.By} stands behind an exception in this job and waived `{waiver.Rule}` until {RegisterOutcome.Day(waiver.Until)}.",
            Act
        );

    private static bool IsInForce(Waiver waiver, DateOnly day) => waiver.From <= day && day <= waiver.Until;

    private static bool IsOfSafeWork(DutyFrame duty, string rule) =>
        duty
            .Job.Book.Packs.SelectMany(pack => pack.Rules)
            .Any(one =>
                string.Equals(one.Id.Text, rule, StringComparison.Ordinal)
                && one.Check
                    is Check.EnergyControl
                        or Check.RequiredEvent
                        or Check.OrderOfEvents
                        or Check.Protection
                        or Check.Credibility
            );
}
