using System.Collections.Immutable;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// Somebody authorised went through the energies and controls of the machine before it was shut down. That the entry
/// stands says no more than that it was gone through; nobody can see what somebody knows. Where it names a procedure, that is
/// the one in force: by another, such as one replaced since, other energies were gone through.
/// </summary>
internal static class EnergyReviewedDuty
{
    public static CheckOutcome Judge(DutyFrame duty)
    {
        var leadUp = LeadUp.ToFirstWork(duty);
        var reviews = duty.Reading.Of(TimelineEventKind.EnergyReviewed);
        var what = EventWords.Done(TimelineEventKind.EnergyReviewed);
        var until = Until(leadUp);
        // What was gone through once is known: a start of the machine in between does not undo it.
        var early = reviews.Where(entry => until is null || entry.Moment <= until.Moment).ToImmutableArray();
        var inTime = early
            .Where(entry => Another(duty, entry) is null)
            .OrderBy(entry => (int)Authorities.Of(duty, entry.Event.Actor))
            .ThenBy(entry => duty.Reading.Weakened.Contains(entry.Pointer()))
            .FirstOrDefault();
        if (inTime is null)
        {
            return TimelineOutcome.OfFaults([
                early is [.., var by]
                    ? ByAnother(leadUp, what, by, Another(duty, by)!)
                    : Missing(leadUp, what, until, reviews.FirstOrDefault()),
            ]);
        }

        var authority = Authorities.Of(duty, inTime.Event.Actor);
        return authority == Authority.Shown
            ? LeadUpOutcome.Of(leadUp, [], $"{what} {duty.Words.AtBy(inTime)}", [inTime])
            : TimelineOutcome.Of(
                authority == Authority.Denied ? Verdict.NotMet : Verdict.Unproven,
                authority == Authority.Denied ? FindingReason.WrongPerson : FindingReason.NotRegistered,
                $"The record shows {what} {duty.Words.AtBy(inTime)}, {Authorities.Against(authority)}, and by nobody else.",
                [inTime.Pointer()],
                "Let an authorised person go through the energies and controls before the machine is shut down."
            );
    }

    /// <summary>The procedure in force, where the entry names another; null: it names that one, or none, or there is none.</summary>
    private static Procedure? Another(DutyFrame duty, OrderedEvent entry)
    {
        if (entry.Event.Procedure is not { } named)
        {
            return null;
        }

        // Where the record contradicts its own place, the machine's procedure judges, and that of the place may have been taken.
        var inForce = new[] { ProcedureInUse.Of(duty)?.Procedure, duty.Procedure }
            .OfType<Procedure>()
            .ToList();
        return inForce.Exists(procedure => Names.AreAlike(procedure.Id.Text, named))
            ? null
            : inForce.FirstOrDefault();
    }

    private static TimelineFault ByAnother(LeadUp leadUp, string what, OrderedEvent by, Procedure inForce)
    {
        var told =
            $"The record shows {what} {leadUp.Duty.Words.AtBy(by)} by procedure {by.Event.Procedure}; in force for {leadUp.Duty.Record.Machine.Id} was {inForce.Id}.";
        const string act =
            "Go through the energies and controls by the procedure in force, before hands go in; where the name was written wrongly, correct it, saying why.";
        var fault =
            leadUp.Work is null && leadUp.CanStillBeDone
                ? TimelineFault.NotYet(what, act, [by])
                : new(Verdict.NotMet, FindingReason.ProcedureNotFollowed, told, [by], act);
        return fault with { Text = told };
    }

    /// <summary>The shutdown before which it is asked; without one, the first isolation, or the work itself.</summary>
    private static OrderedEvent? Until(LeadUp leadUp) =>
        leadUp.Of(TimelineEventKind.MachineShutDown).FirstOrDefault()
        ?? leadUp
            .Of(TimelineEventKind.IsolatorOperated, TimelineEventKind.PlugRemoved)
            .FirstOrDefault(entry => entry.Event.Position != IsolatorPosition.On)
        ?? leadUp.Work?.Start;

    private static TimelineFault Missing(LeadUp leadUp, string what, OrderedEvent? until, OrderedEvent? late)
    {
        if (until is null)
        {
            return LeadUpOutcome.Missing(leadUp, what);
        }

        var words = leadUp.Duty.Words;
        var before = $"{EventWords.Done(until.Event.Kind)} at {words.Time(until)}";
        return new(
            Verdict.NotMet,
            late is null ? FindingReason.StepMissing : FindingReason.WrongOrder,
            late is null
                ? $"The record does not show {what} before it shows {before}."
                : $"The record shows {what} {words.OnlyAt(late, until)} it shows {before}.",
            late is null ? [until] : [until, late],
            "Go through the energies and controls now, before hands go in; next time before the machine is shut down."
        );
    }
}
