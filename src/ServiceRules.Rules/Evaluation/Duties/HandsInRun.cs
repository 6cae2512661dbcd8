using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>A step that only a hand at the unit can make, shown while the machine ran.</summary>
/// <param name="Run">The run that it falls in.</param>
/// <param name="Entry">The step.</param>
internal sealed record HandsInRun(MachineRun Run, OrderedEvent Entry)
{
    // A defect that was found before the run may have been put right before it, by hands that nobody entered.
    private bool IsUntold { get; init; }

    // These are held, blocked or braked where they are.
    private static readonly ImmutableArray<Id<EnergySource>> HeldAtTheUnit =
    [
        new("gravity"),
        new("spring"),
        new("wheel_rotation"),
    ];

    /// <summary>Every such step, whoever made it, in judged order.</summary>
    public static ImmutableArray<HandsInRun> Of(DutyFrame duty)
    {
        var runs = MachineRun.Of(duty);
        if (runs.IsEmpty)
        {
            return [];
        }

        var known = EffectiveSources.Of(duty.Reading).Select(source => source.Source.Id).ToList();
        return
        [
            .. duty
                .Reading.Events.Where(entry =>
                    TakesHands(entry.Event, known) || PutRightByHand.Is(duty.Reading, entry)
                )
                .Select(entry => (Entry: entry, Run: LastBefore(runs, entry)))
                .Where(both => both.Run is { } run && !IsCutOff(duty, run, both.Entry))
                .Select(both => new HandsInRun(both.Run!, both.Entry)
                {
                    IsUntold =
                        both.Entry.Event.Kind == TimelineEventKind.SafetyDefectClosed
                        && !PutRightByHand.IsWithinOneRun(duty.Reading, both.Entry),
                }),
        ];
    }

    /// <summary>
    /// Pressure entered as let off during a run, at a lever or a valve of which nothing tells where it is: whoever did it was
    /// at the machine while it ran, and its pump makes pressure as long as it does.
    /// </summary>
    public static IEnumerable<TimelineFault> Pressure(DutyFrame duty)
    {
        var runs = MachineRun.Of(duty);
        return from entry in duty.Reading.Of(TimelineEventKind.StoredEnergyReleased)
            where
                entry.Event.Source is SourceReference.One { Source: var source }
                && !HeldAtTheUnit.Contains(source)
            let run = LastBefore(runs, entry)
            where run is not null && !IsCutOff(duty, run, entry)
            select new TimelineFault(
                Verdict.Unproven,
                FindingReason.StepMissing,
                $"The record shows {EventWords.Done(entry.Event.Kind)} ({((SourceReference.One)entry.Event.Source!).Source}) {duty.Words.AtBy(entry)}, during {run.Named}: it does not show where {entry.Event.Actor} stood while the machine ran, nor that anything stays released of a machine that runs.",
                [run.Start, entry],
                "Release stored energy on a machine that stands still; have whoever did it say where they stood."
            );
    }

    /// <summary>
    /// Such steps before the machine, of which no start is shown, was shut down, or with no stop of it shown at all: it may have run. What holds
    /// stored energy is none of them, for units are let down from the seat.
    /// </summary>
    public static IEnumerable<TimelineFault> BeforeShutdown(DutyFrame duty)
    {
        var first = duty
            .Reading.Of(
                TimelineEventKind.TestEnergised,
                TimelineEventKind.MachineStarted,
                TimelineEventKind.TestEnded,
                TimelineEventKind.MachineShutDown
            )
            .FirstOrDefault();
        // Where the record shows the machine neither run nor stopped, it may have run until it was isolated.
        return
            first is not (null or { Event.Kind: TimelineEventKind.MachineShutDown })
            || (first is null && !duty.Sources.Any(source => source.HasIsolator))
            ? []
            :
            [
                .. duty
                    .Reading.Events.Where(entry =>
                        (first is null || entry.Moment < first.Moment)
                        && (IsDoneAtTheUnit(entry.Event.Kind) || PutRightByHand.Is(duty.Reading, entry))
                        && !IsStopShown(duty, TimelinePlace.Beginning, entry.Place())
                    )
                    .Select(entry => new TimelineFault(
                        Verdict.Unproven,
                        FindingReason.StepMissing,
                        $"The record shows {EventWords.Done(entry.Event.Kind)} {duty.Words.AtBy(entry)}{PutRightByHand.TakesHands(entry.Event)}, {(first is null ? "and no shutdown of the machine before it" : $"before the machine was shut down at {duty.Words.Time(first)}")}, and does not show that it stood still by then.",
                        [.. new[] { entry, first }.OfType<OrderedEvent>()],
                        "Have whoever was there say whether the machine ran then, as a late entry."
                    )),
            ];
    }

    /// <summary>Not kept; where it stands at the instant of a start or an end the record cannot tell which came first.</summary>
    public TimelineFault Fault(TimelineWords words, string act)
    {
        var told = new TimelineFault(
            Verdict.NotMet,
            FindingReason.Unprotected,
            $"The record shows {EventWords.Done(Entry.Event.Kind)} {words.AtBy(Entry)}{PutRightByHand.TakesHands(Entry.Event)}, during {Run.Named}{(Run.End is null ? ", whose end it does not show" : string.Empty)}.",
            [Run.Start, Entry],
            act
        );
        return IsUntold
                ? told with
                {
                    Verdict = Verdict.Unproven,
                    Reason = FindingReason.StepMissing,
                    Act =
                        "Have whoever put it right say when and how, and whether the machine stood still; enter the work that did it.",
                }
            : Entry.Moment == Run.Start.Moment || Entry.Moment == Run.End?.Moment ? LeadUpOutcome.Untold(told)
            : told;
    }

    private static bool TakesHands(TimelineEvent entry, List<Id<EnergySource>> known) =>
        IsDoneAtTheUnit(entry.Kind)
        || (
            entry.Kind == TimelineEventKind.StoredEnergyReleased
            && entry.Source switch
            {
                SourceReference.One one => HeldAtTheUnit.Contains(one.Source),
                SourceReference.All => known.Exists(HeldAtTheUnit.Contains),
                _ => false,
            }
        );

    /// <summary>Whether a step is made with a hand at the unit, whatever it is made for.</summary>
    public static bool IsDoneAtTheUnit(TimelineEventKind kind) =>
        kind
            is TimelineEventKind.ReelWedged
                or TimelineEventKind.UnitSupported
                or TimelineEventKind.GuardsRefitted
                or TimelineEventKind.BlockageClearedByHand
                or TimelineEventKind.BlockageClearedWithTool;

    private static MachineRun? LastBefore(ImmutableArray<MachineRun> runs, OrderedEvent entry) =>
        runs.LastOrDefault(run => run.Start.Place() < entry.Place() && run.Interval.Contains(entry.Place()));

    // Of a run whose own end is not entered: it was over when what follows a stop was done.
    private static bool IsCutOff(DutyFrame duty, MachineRun run, OrderedEvent entry) =>
        !HasOwnEnd(duty, run) && IsStopShown(duty, run.Start.Place(), entry.Place());

    private static bool IsStopShown(DutyFrame duty, TimelinePlace after, TimelinePlace before) =>
        duty.Reading.Events.Any(sign =>
            sign.Place() > after && sign.Place() < before && FollowsAStop(sign.Event)
        );

    /// <summary>Whether it is done on a machine that was stopped.</summary>
    public static bool FollowsAStop(TimelineEvent entry) =>
        entry.Kind
            is TimelineEventKind.KeyRemoved
                or TimelineEventKind.SeenAtRest
                or TimelineEventKind.PlugRemoved
                or TimelineEventKind.LockApplied
                or TimelineEventKind.TagApplied
                or TimelineEventKind.IsolationVerified
        || entry is { Kind: TimelineEventKind.IsolatorOperated, Position: not IsolatorPosition.On };

    private static bool HasOwnEnd(DutyFrame duty, MachineRun run) =>
        run.End is { } end
        && !duty.Reading.Energisings.Any(next =>
            next.Place() > run.Start.Place() && next.Place() < end.Place()
        );
}
