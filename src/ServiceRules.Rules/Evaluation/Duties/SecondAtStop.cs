using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// The second person at the stop of one run: somebody whom the record names, and not the one who works; known to the
/// register, and shown nowhere else while the reel ran.
/// </summary>
/// <param name="People">Who stood there by all that is shown; empty: nobody.</param>
/// <param name="IsNamed">The entry of the measure names them.</param>
/// <param name="Against">What stands against everybody it could have been; null: nothing, or there is nobody.</param>
/// <param name="Verdict">How far it goes: not met where the record shows otherwise, unproven where it does not show it.</param>
/// <param name="Beside">Where that stands.</param>
internal sealed record SecondAtStop(
    ImmutableArray<Id<Participant>> People,
    bool IsNamed,
    string? Against,
    Verdict Verdict,
    ImmutableArray<string> Beside
)
{
    /// <summary>Who it was, by the last entry before the run that names somebody.</summary>
    /// <param name="people">The people of the run.</param>
    /// <param name="said">The entries before it that say the measure, in judged order; at least one.</param>
    public static SecondAtStop Of(PeopleAtRun people, ImmutableArray<OrderedEvent> said)
    {
        var duty = people.Duty;
        var named = said.Select(entry => StopHeld.Named(duty.Record, entry.Event))
            .LastOrDefault(ids => !ids.IsEmpty, []);
        var candidates =
            !named.IsEmpty ? named
            : StopHeld.IsDenied(said[^1].Event) ? []
            : Crew(people, said[^1]);
        var standings = candidates
            .Select(person => (Person: person, Fault: Fault(people, person)))
            .ToImmutableArray();
        var there = standings.Where(one => one.Fault is null).Select(one => one.Person).ToImmutableArray();
        if (!there.IsEmpty || standings.IsEmpty)
        {
            return new(there, !named.IsEmpty, null, Verdict.Unproven, []);
        }

        var faults = standings.Select(one => one.Fault!).ToImmutableArray();
        return new(
            [],
            !named.IsEmpty,
            TimelineWords.List(faults.Select(fault => fault.Text)),
            !named.IsEmpty && faults.All(fault => fault.Verdict == Verdict.NotMet)
                ? Verdict.NotMet
                : Verdict.Unproven,
            [.. faults.SelectMany(fault => fault.Beside)]
        );
    }

    // Named by nobody: whoever else does the work or helps with it, put the measure down, or was at the controls.
    private static ImmutableArray<Id<Participant>> Crew(PeopleAtRun people, OrderedEvent said) =>
        [
            .. people
                .Duty.Reading.HandsIn.Concat(people.Duty.Reading.AtTheStop)
                .Append(said.Event.Actor)
                .Concat(people.Acts.Where(act => act.IsAtControls).Select(act => act.Person))
                .Concat(people.Starter is { } starter ? [starter] : [])
                .Distinct()
                .Where(person => !people.Workers.Contains(person)),
        ];

    private static Standing? Fault(PeopleAtRun people, Id<Participant> person)
    {
        var duty = people.Duty;
        var run = people.Run;
        if (people.Performers.Contains(person) || IsAlone(people, person))
        {
            return new(
                Verdict.NotMet,
                people.Performers.Contains(person)
                    ? $"{person}, who did the task itself"
                    : $"{person}, who ran the machine alone",
                [.. run.Performed.Select(entry => entry.Pointer()), run.Start.Pointer()]
            );
        }

        if (
            duty.Reading.Works.FirstOrDefault(work =>
                work.Person == person && !people.Interval.Overlap(work.Interval).IsEmpty
            ) is
            { } work
        )
        {
            return new(
                Verdict.NotMet,
                $"{person}, whom it shows at work from {duty.Words.Time(work.Start)}",
                [work.Start.Pointer()]
            );
        }

        if (
            people.Acts.FirstOrDefault(act => act is { IsAtControls: false } && act.Person == person) is
            { } act
        )
        {
            return new(
                act.IsAtEdge ? Verdict.Unproven : Verdict.NotMet,
                $"{person}, and shows {act.What}",
                [act.Pointer]
            );
        }

        var away = ElsewhereDoubts.WhereMeanwhile(duty.Reading, person, run.Start.Moment, people.Until);
        var missing =
            away is not null ? away
            : IsAtWorkInAnother(people, person) ? "whom another record of the machine shows at work meanwhile"
            : duty.RoleOf(person) is null && !duty.Reading.HandsIn.Contains(person)
                ? "whom the people of the record do not have"
            : duty.PersonOf(person) is null && !duty.Context.People.IsEmpty
                ? Authorities.Against(Authority.NotKnown)
            : null;
        return missing is null ? null : new(Verdict.Unproven, $"{person}, {missing}", []);
    }

    private static bool IsAlone(PeopleAtRun people, Id<Participant> person) =>
        people.Performers.IsEmpty
        && people.Starter == person
        && people.Duty.Reading.HandsIn.All(hands => hands == person);

    private static bool IsAtWorkInAnother(PeopleAtRun people, Id<Participant> person) =>
        people.Duty.Reading.Others.Any(other =>
            other.Reading.Works.Any(work =>
                work.Person == person
                && (people.Until is not { } until || work.Start.Moment < until)
                && (work.Stop is not { } stop || people.Run.Start.Moment < stop.Moment)
            )
        );

    private sealed record Standing(Verdict Verdict, string Text, ImmutableArray<string> Beside);
}
