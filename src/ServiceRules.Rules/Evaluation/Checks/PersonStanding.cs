using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Duties;
using ServiceRules.Rules.Evaluation.Timeline;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// What the register lacks of somebody who made a step or signed. Of whoever has hands in a duty of its own asks that, and a
/// site that keeps no register has nothing to hold anybody against.
/// </summary>
/// <param name="Verdict">Not met, or unproven.</param>
/// <param name="Reason">Why, in one closed word.</param>
/// <param name="Text">What is lacking, after the person's name and a comma.</param>
/// <param name="Act">What to do about it.</param>
internal sealed record PersonStanding(Verdict Verdict, FindingReason Reason, string Text, string Act)
{
    /// <summary>What is lacking of what a rule asks; null: nothing.</summary>
    public static PersonStanding? Lacking(
        TimelineReading reading,
        Id<Participant> person,
        RecordedTime at,
        PersonAsked? asked
    )
    {
        if (asked is null || IsAskedElsewhere(reading, person))
        {
            return null;
        }

        var day = reading.Frame.Context.Zone.DayOf(at);
        return reading.Frame.Context.People.FirstOrDefault(known => known.Id == person)?.On(day) switch
        {
            null => new(
                Verdict.Unproven,
                FindingReason.NotRegistered,
                Authorities.Against(Authority.NotKnown),
                "Enter the person in the register, or correct the name, saying why."
            ),
            _ when asked == PersonAsked.Known => null,
            { Left: { } left } when left < day => Wrong(
                FindingReason.OutOfDate,
                $"who left on {RegisterOutcome.Day(left)}"
            ),
            { Authorised: false } => Wrong(FindingReason.WrongPerson, Authorities.Against(Authority.Denied)),
            { TrainedOn: { } on } when on > day => Wrong(
                FindingReason.OutOfDate,
                $"who was trained only on {RegisterOutcome.Day(on)}"
            ),
            { TrainedUntil: { } until } when until < day => Wrong(
                FindingReason.OutOfDate,
                $"whose training held until {RegisterOutcome.Day(until)}"
            ),
            _ => null,
        };
    }

    /// <summary>Of steps, each person once.</summary>
    public static IEnumerable<TimelineFault> Faults(
        TimelineReading reading,
        IEnumerable<OrderedEvent> steps,
        PersonAsked? asked
    ) =>
        from step in steps.DistinctBy(step => step.Event.Actor)
        let lacking = Lacking(reading, step.Event.Actor, step.Event.At, asked)
        where lacking is not null
        select new TimelineFault(
            lacking.Verdict,
            lacking.Reason,
            $"The record shows {EventWords.Done(step.Event.Kind)} {reading.Words.AtBy(step)}, {lacking.Text}.",
            [step],
            lacking.Act
        );

    /// <summary>Known, and neither authorised nor with hands in: told where no more than that is asked.</summary>
    public static ImmutableArray<string> Notices(
        TimelineReading reading,
        Id<Participant> person,
        PersonAsked? asked
    ) =>
        asked == PersonAsked.Known
        && !IsAskedElsewhere(reading, person)
        && reading.Frame.Context.People.Any(known =>
            known.Id == person && !known.On(reading.Frame.Days.Began).Authorised
        )
            ? [$"{person} had no hands in by this record, and the register does not show them as authorised."]
            : [];

    private static bool IsAskedElsewhere(TimelineReading reading, Id<Participant> person) =>
        reading.Frame.Context.People.IsEmpty || reading.HandsIn.Contains(person);

    private static PersonStanding Wrong(FindingReason reason, string text) =>
        new(
            Verdict.NotMet,
            reason,
            text,
            "Have somebody authorised do it, as the site asks, or bring the register up to date."
        );
}
