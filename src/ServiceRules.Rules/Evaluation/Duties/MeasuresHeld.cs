using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// What is said before a run of who stands where, held against the people whom the record shows in it: one person alone at
/// the controls, a second at the stop, everybody else kept out.
/// </summary>
internal sealed class MeasuresHeld
{
    private static readonly ImmutableArray<ProtectiveMeasure> OfPeople =
    [
        ProtectiveMeasure.SingleOperatorControl,
        ProtectiveMeasure.SecondPersonAtStopControl,
        ProtectiveMeasure.ExclusionZone,
    ];

    private const string Ask =
        "Have whoever was there say who ran the machine, who stood at the stop and who was near; nobody runs it again before the measures are as said.";

    private const string Name =
        "Enter who stood at the stop, as a late entry of the measures that names them; stop the run where nobody did.";

    private readonly PeopleAtRun people;
    private readonly ImmutableArray<OrderedEvent> theirs;
    private readonly SecondAtStop? second;

    private MeasuresHeld(
        DutyFrame duty,
        MachineRun run,
        ImmutableArray<OrderedEvent> theirs,
        ImmutableArray<ProtectiveMeasure> asked
    )
    {
        people = PeopleAtRun.Of(duty, run);
        this.theirs = theirs;
        var own = Own(duty, run, theirs);
        var all = theirs.SelectMany(entry => entry.Event.Measures).ToImmutableHashSet();
        ImmutableArray<ProtectiveMeasure> said =
        [
            .. own.SelectMany(entry => entry.Event.Measures).Concat(asked.Where(all.Contains)).Distinct(),
        ];
        second = said.Contains(ProtectiveMeasure.SecondPersonAtStopControl)
            ? SecondAtStop.Of(people, [.. theirs.Where(entry => StopHeld.IsSaid(entry.Event))])
            : null;
        var found = OfPeople
            .Where(said.Contains)
            .Select(measure => (Measure: measure, Fault: FaultOf(measure)))
            .Where(one => one.Fault is not null)
            .ToImmutableArray();
        // Where the procedure asks for it, or nothing else keeps people from what turns, the run rests on it.
        var isKeptElse = said.Any(measure =>
            MeasureWords.AgainstTheRun.Contains(measure) && !found.Any(one => one.Measure == measure)
        );
        Faults =
        [
            .. from one in found
            let rests = asked.Contains(one.Measure) || !isKeptElse
            where rests || !IsOnlyNotShown(one.Measure)
            select rests ? one.Fault! : LessOf(one.Fault!),
        ];
        Notices =
        [
            .. found
                .Where(one => !Faults.Any(fault => fault.Text == one.Fault!.Text))
                .Select(one => one.Fault!.Text),
            .. Standstill(own),
            .. NotByName(),
        ];
    }

    /// <summary>What of it the record shows otherwise, or does not show.</summary>
    public ImmutableArray<TimelineFault> Faults { get; }

    /// <summary>What is told beside it.</summary>
    public ImmutableArray<string> Notices { get; }

    /// <summary>Whether a second person at the stop is said at all.</summary>
    public bool IsStopSaid => second is not null;

    /// <summary>Whether the entries of the measure name who that was.</summary>
    public bool IsStopNamed => second is { IsNamed: true };

    /// <summary>Who stood at the stop by all that is shown.</summary>
    public ImmutableArray<Id<Participant>> AtTheStop => second?.People ?? [];

    /// <summary>Holds the measures of one run against its people.</summary>
    /// <param name="duty">The job.</param>
    /// <param name="run">The run.</param>
    /// <param name="theirs">The measures before it that count, in judged order; at least one entry.</param>
    /// <param name="asked">What the procedure asks for it.</param>
    public static MeasuresHeld Of(
        DutyFrame duty,
        MachineRun run,
        ImmutableArray<OrderedEvent> theirs,
        ImmutableArray<ProtectiveMeasure> asked
    ) => new(duty, run, theirs, asked);

    /// <summary>
    /// Those entered since the run before: what was said for another run speaks of this one only where nothing else does.
    /// </summary>
    public static ImmutableArray<OrderedEvent> Own(
        DutyFrame duty,
        MachineRun run,
        ImmutableArray<OrderedEvent> theirs
    )
    {
        var before = duty.Reading.Energisings.LastOrDefault(start => start.Place() < run.Start.Place());
        var own = theirs.Where(entry => before is null || entry.Place() > before.Place()).ToImmutableArray();
        return own.IsEmpty ? [theirs[^1]] : own;
    }

    private TimelineFault? FaultOf(ProtectiveMeasure measure) =>
        measure switch
        {
            ProtectiveMeasure.SingleOperatorControl => Alone(),
            ProtectiveMeasure.SecondPersonAtStopControl => AtStop(),
            _ => KeptOut(),
        };

    private TimelineFault? Alone()
    {
        if (people.Starter is not { } starter)
        {
            return null;
        }

        const ProtectiveMeasure measure = ProtectiveMeasure.SingleOperatorControl;
        var run = people.Run;
        if (people.Performers.Any(person => person != starter))
        {
            var others = people.Performers.Where(person => person != starter).Select(one => one.Text);
            return Otherwise(
                measure,
                $"{Started()}, and the task done by {TimelineWords.List(others)}",
                [run.Start, .. run.Performed],
                []
            );
        }

        if (
            people.Performers.IsEmpty
            && starter != LastOf(measure).Event.Actor
            && !people.Duty.Reading.HandsIn.Contains(starter)
        )
        {
            return Otherwise(measure, $"{Started()}, who does not do the work", [run.Start], []);
        }

        var act = people
            .Acts.Where(act => act.Person != starter && !people.Performers.Contains(act.Person))
            .Where(act => !(act.IsAtControls && AtTheStop.Contains(act.Person)))
            .OrderBy(act => act.IsAtEdge)
            .FirstOrDefault();
        return act is null ? null : ByAnother(measure, act);
    }

    private TimelineFault? KeptOut()
    {
        var act = people
            .Acts.Where(act =>
                !act.IsAtControls
                && act.Person != people.Starter
                && !people.Performers.Contains(act.Person)
                && !AtTheStop.Contains(act.Person)
            )
            .OrderBy(act => act.IsAtEdge)
            .FirstOrDefault();
        return act is null || (people.Starter is null && people.Performers.IsEmpty)
            ? null
            : ByAnother(ProtectiveMeasure.ExclusionZone, act);
    }

    private TimelineFault? AtStop()
    {
        if (second is not { People.IsEmpty: true } none)
        {
            return null;
        }

        var entry = LastOf(ProtectiveMeasure.SecondPersonAtStopControl);
        var said = Said(entry, ProtectiveMeasure.SecondPersonAtStopControl);
        return new(
            none.Verdict,
            none.Verdict == Verdict.NotMet ? FindingReason.ProcedureNotFollowed : FindingReason.StepMissing,
            none.Against is null
                ? $"{said}, and the record does not show who that was."
                : $"{said}, and the record {(none.IsNamed ? "names" : "has nobody else for it than")} {none.Against}.",
            [entry, people.Run.Start],
            none.Verdict == Verdict.NotMet ? Ask : Name,
            none.Beside
        );
    }

    // A second person that is not named is no entry against the measure.
    private bool IsOnlyNotShown(ProtectiveMeasure measure) =>
        measure == ProtectiveMeasure.SecondPersonAtStopControl && second is not { Verdict: Verdict.NotMet };

    private TimelineFault ByAnother(ProtectiveMeasure measure, ActInRun act)
    {
        var fault = Otherwise(
            measure,
            act.What,
            act.Entry is { } entry ? [people.Run.Start, entry] : [people.Run.Start],
            act.Entry is null ? [act.Pointer] : []
        );
        return act.IsAtEdge ? LeadUpOutcome.Untold(fault) : fault;
    }

    private TimelineFault Otherwise(
        ProtectiveMeasure measure,
        string shown,
        ImmutableArray<OrderedEvent> entries,
        ImmutableArray<string> beside
    )
    {
        var said = LastOf(measure);
        return new(
            Verdict.NotMet,
            FindingReason.ProcedureNotFollowed,
            $"{Said(said, measure)}, and the record shows {shown}.",
            [said, .. entries],
            Ask,
            beside
        );
    }

    // Other measures keep people from what turns: that this one was not as said leaves the run in doubt.
    private static TimelineFault LessOf(TimelineFault fault) => fault with { Verdict = Verdict.Unproven };

    private OrderedEvent LastOf(ProtectiveMeasure measure) =>
        theirs.Last(entry => entry.Event.Measures.Contains(measure));

    private string Said(OrderedEvent entry, ProtectiveMeasure measure) =>
        $"Of {people.Run.Named} {MeasureWords.Of(measure)} is said {people.Duty.Words.AtBy(entry)}";

    private string Started() =>
        $"{EventWords.Done(people.Run.Start.Event.Kind)} {people.Duty.Words.AtBy(people.Run.Start)}";

    private IEnumerable<string> Standstill(ImmutableArray<OrderedEvent> own) =>
        from entry in own
        let measures = entry.Event.Measures.Where(MeasureWords.IsOfStandstill).Distinct().ToImmutableArray()
        where !measures.IsEmpty
        select $"{Said(entry, measures)}, which is said of a machine that stands still: ask what was meant by it, and whether the other measures of that entry were so.";

    private string Said(OrderedEvent entry, ImmutableArray<ProtectiveMeasure> measures) =>
        $"Of {people.Run.Named} {TimelineWords.List(measures.Select(MeasureWords.Of))} is said {people.Duty.Words.AtBy(entry)}";

    private IEnumerable<string> NotByName() =>
        second is { IsNamed: false, People: { IsEmpty: false } there }
            ?
            [
                $"No entry names who stood at the stop in {people.Run.Named}; beside whoever worked the record has {TimelineWords.List(there.Select(one => one.Text))}.",
            ]
            : [];
}
