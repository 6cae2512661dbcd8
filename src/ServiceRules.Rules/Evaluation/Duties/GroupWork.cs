using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>Several people at work on one machine: who they are, and who was put in charge of them.</summary>
internal static class GroupWork
{
    /// <summary>Everybody whom the record shows at work; before anybody is, everybody with a part in it.</summary>
    public static ImmutableArray<Id<Participant>> Workers(DutyFrame duty) =>
        duty.Reading.Works.IsEmpty && duty.Reading.IsOpen
            ? duty.Reading.HandsIn
            :
            [
                .. duty
                    .Reading.Works.Select(work => work.Person)
                    .Concat(duty.Reading.StopsWithoutStart.Select(stop => stop.Event.Actor))
                    .Distinct(),
            ];

    /// <summary>The same, and whoever wedges a reel, props a unit up or refits guards while another is at work.</summary>
    public static ImmutableArray<Id<Participant>> WithStepsByHand(DutyFrame duty) =>
        [.. Workers(duty).Concat(StepsBeside(duty).Select(step => step.Person)).Distinct()];

    /// <summary>Steps that only a hand at the unit makes, while another is at work.</summary>
    public static IEnumerable<StepByHand> StepsBeside(DutyFrame duty) =>
        StepByHand
            .Of(duty.Reading)
            .Where(step =>
                // Who says that a defect was put right often only says so.
                step.Entry.Event.Kind != TimelineEventKind.SafetyDefectClosed
                && AmidWork.Of(duty.Reading, step.Entry, other: step.Person) is not null
            );

    /// <summary>Whom an entry puts in charge: those it names; whoever made it, where it names nobody.</summary>
    public static ImmutableArray<Id<Participant>> Named(OrderedEvent entry) =>
        entry.Event.Others.IsEmpty ? [entry.Event.Actor] : entry.Event.Others;

    /// <summary>Somebody authorised was put in charge before the first work.</summary>
    /// <param name="duty">The job.</param>
    /// <param name="kind">The entry that does so.</param>
    /// <param name="act">What to do.</param>
    public static CheckOutcome PutInCharge(DutyFrame duty, TimelineEventKind kind, string act)
    {
        var what = EventWords.Done(kind);
        var work = duty.Reading.FirstWork;
        var all = duty.Reading.Of(kind);
        var inTime = all.Where(entry => work is null || entry.Place() < work.Start.Place())
            .OrderBy(entry => (int)Standing(duty, entry))
            .ThenBy(entry => duty.Reading.Weakened.Contains(entry.Pointer()))
            .FirstOrDefault();
        if (inTime is null)
        {
            return TimelineOutcome.OfFaults([Missing(duty, what, work, all.FirstOrDefault(), act)]);
        }

        var standing = Standing(duty, inTime);
        var told = $"{what}: {TimelineWords.List(Named(inTime).Select(person => person.Text))}";
        return standing == Authority.Shown
            ? TimelineOutcome.Met(
                duty.Reading,
                $"The record shows {told}, at {duty.Words.Time(inTime)}, before hands went in.",
                [inTime]
            )
            : TimelineOutcome.Of(
                standing == Authority.Denied ? Verdict.NotMet : Verdict.Unproven,
                standing == Authority.Denied ? FindingReason.WrongPerson : FindingReason.NotRegistered,
                $"The record shows {told}, {Authorities.Against(standing)}.",
                [inTime.Pointer()],
                act
            );
    }

    private static Authority Standing(DutyFrame duty, OrderedEvent entry) =>
        Named(entry).Select(person => Authorities.Of(duty, person)).Min();

    private static TimelineFault Missing(
        DutyFrame duty,
        string what,
        WorkInterval? work,
        OrderedEvent? late,
        string act
    ) =>
        work is null && duty.Reading.IsOpen ? TimelineFault.NotYet(what, act)
        : work is null
            ? new(Verdict.NotMet, FindingReason.StepMissing, $"The record does not show {what}.", [], act)
        : new(
            Verdict.NotMet,
            late is null ? FindingReason.StepMissing : FindingReason.WrongOrder,
            late is null
                ? $"The record shows several people at work, and does not show {what} before work started at {duty.Words.Time(work.Start)}."
                : $"The record shows {what} only at {duty.Words.Time(late)}, after work started at {duty.Words.Time(work.Start)}.",
            late is null ? [work.Start] : [work.Start, late],
            act
        );
}
