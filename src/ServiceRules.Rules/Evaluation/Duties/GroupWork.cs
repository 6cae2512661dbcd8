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

    /// <summary>
    /// The first work that has somebody else with hands in as well: until then there is no group. The first of all, where the
    /// record does not show when everybody's began. Null: nobody is shown at work.
    /// </summary>
    public static WorkInterval? Joining(DutyFrame duty)
    {
        var works = duty.Reading.Works;
        return UnlessEarlier(
            duty,
            works.FirstOrDefault(work =>
                works.Any(other => other.Person != work.Person && other.Interval.Contains(work.Start.Place()))
            )
        );
    }

    /// <summary>The first work of somebody of another crew or employer than one who worked before; else as of any group.</summary>
    public static WorkInterval? JoiningOfCrews(DutyFrame duty, Func<Id<Participant>, string?> crewOf)
    {
        var works = duty.Reading.Works;
        // Of whom the register does not have, nothing tells whose they are.
        return works.Any(work => crewOf(work.Person) is null)
            ? duty.Reading.FirstWork
            : UnlessEarlier(
                duty,
                works.FirstOrDefault(work =>
                    !string.Equals(crewOf(work.Person), crewOf(works[0].Person), StringComparison.Ordinal)
                )
            );
    }

    // Who is at a unit by the bench log alone has joined by then; work whose start is not told may have begun at any time.
    private static WorkInterval? UnlessEarlier(DutyFrame duty, WorkInterval? joining) =>
        joining is null
        || !duty.Reading.StopsWithoutStart.IsEmpty
        || HandsBeside.Of(duty).Any(beside => beside.Hands.Moment <= joining.Start.Moment)
            ? duty.Reading.FirstWork
            : joining;

    /// <summary>Somebody authorised was put in charge by the time at which a second person, or crew, joined.</summary>
    /// <param name="duty">The job.</param>
    /// <param name="kind">The entry that does so.</param>
    /// <param name="work">The work by which there was a group; null: none is shown.</param>
    /// <param name="act">What to do.</param>
    public static CheckOutcome PutInCharge(
        DutyFrame duty,
        TimelineEventKind kind,
        WorkInterval? work,
        string act
    )
    {
        var what = EventWords.Done(kind);
        var all = duty.Reading.Of(kind);
        var inTime = all.Where(entry => work is null || entry.Moment <= work.Start.Moment)
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
                $"The record shows {told}, at {duty.Words.Time(inTime)}, {When(duty, work)}.",
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

    private static string When(DutyFrame duty, WorkInterval? work) =>
        work is null || work == duty.Reading.FirstWork
            ? "before hands went in"
            : $"by the time at which {work.Person} joined at {duty.Words.Time(work.Start)}";

    private static string Began(DutyFrame duty, WorkInterval work) =>
        work == duty.Reading.FirstWork
            ? $"work started at {duty.Words.Time(work.Start)}"
            : $"{work.Person} joined at {duty.Words.Time(work.Start)}";

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
                ? $"The record shows several people at work, and does not show {what} before {Began(duty, work)}."
                : $"The record shows {what} {duty.Words.OnlyAt(late, work.Start)} {Began(duty, work)}.",
            late is null ? [work.Start] : [work.Start, late],
            act
        );
}
