using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Checks;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>Whoever put a device on had been trained before, in every energy that the machine has.</summary>
internal static class TrainedInEnergiesDuty
{
    private const string Act = "Only people trained in the energies of this machine hang devices on it.";

    public static CheckOutcome Judge(DutyFrame duty)
    {
        var hangings = JobPeople.FirstOfEach(JobPeople.Hangings(duty)).ToList();
        if (hangings.Count == 0)
        {
            return TimelineOutcome.NotApplicable("The record shows no lock or tag put on.");
        }

        // Who it was rests on no time: doubtful times take nothing from it.
        var faults = hangings.Select(hanging => Fault(duty, hanging)).OfType<TimelineFault>().ToList();
        return faults.Count > 0 ? TimelineOutcome.OfFaults(faults) : Met(duty, hangings);
    }

    // What the register does not say of a training it does not deny.
    private static CheckOutcome Met(DutyFrame duty, List<OrderedEvent> hangings)
    {
        var unsaid = hangings
            .Select(hanging => hanging.Event.Actor)
            .Where(person => duty.PersonOf(person) is { StatesCovers: false })
            .Select(person => person.Text)
            .ToList();
        var met = Told.Met(
            $"The register shows everybody who put a device on trained before{(unsaid.Count == 0 ? ", in every energy of the machine" : string.Empty)}.",
            hangings.Evidence()
        );
        return unsaid.Count == 0
            ? met
            : met with
            {
                Notices = met.Notices.Add(
                    $"The register does not say which energies the training of {TimelineWords.List(unsaid)} covers."
                ),
            };
    }

    private static TimelineFault? Fault(DutyFrame duty, OrderedEvent hanging)
    {
        var person = hanging.Event.Actor;
        var put = $"{person} put {JobPeople.Named(hanging)} on at {duty.Words.Time(hanging)}";
        return duty.PersonOf(person) switch
        {
            null => Unsaid(
                $"{put}, and the register of people does not have {person}.",
                hanging,
                "Enter the person and their training in the register."
            ),
            { TrainedOn: null } => Wrong($"{put}, and the register has no training of {person}.", hanging),
            { TrainedOn: { } on } when on > JobPeople.DayOf(duty, hanging) => Wrong(
                $"{put}, and was trained only on {RegisterOutcome.Day(on)}.",
                hanging
            ),
            { StatesCovers: true } known => NotCovered(duty, known) is { Count: > 0 } missing
                ? Wrong(
                    $"{put}, and the training of {person} does not cover {TimelineWords.Named(missing)}.",
                    hanging
                )
                : null,
            _ => null,
        };
    }

    private static List<EnergySource> NotCovered(DutyFrame duty, RegisteredPerson person) =>
        [
            .. duty
                .Sources.Where(source => IsBehind(duty, source, person))
                .Select(source => source.Source)
                .Where(source => !person.Covers.Contains(source.Id)),
        ];

    // What came later their device was not hung against: it is asked once they hang another, or have hands in, beside it.
    private static bool IsBehind(DutyFrame duty, EffectiveSource source, RegisteredPerson person)
    {
        var reading = duty.Reading;
        return source.AddedBy is not { } added
            || reading.Works.IsEmpty
            || reading.Works.Any(work =>
                work.Person == person.Id && (work.Stop is not { } stop || stop.Place() > added.Place())
            )
            || reading.HandsByTheLog.Any(hands =>
                (hands.Entry.By is not { } by || by == person.Id) && hands.Moment >= added.Moment
            )
            || JobPeople
                .Hangings(duty)
                .Any(hanging => hanging.Event.Actor == person.Id && hanging.Place() > added.Place());
    }

    private static TimelineFault Wrong(string text, OrderedEvent hanging) =>
        new(Verdict.NotMet, FindingReason.WrongPerson, text, [hanging], Act);

    private static TimelineFault Unsaid(string text, OrderedEvent hanging, string act) =>
        new(Verdict.Unproven, FindingReason.NotRegistered, text, [hanging], act);
}
