using System.Collections.Immutable;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Checks;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// Minor servicing claimed, and the machine shown in use, switched, moved or under pressure while somebody was at work: what
/// a locked job is held against is held against the claim, which has no lock besides.
/// </summary>
internal static class ClaimAmidWork
{
    private const string Act =
        "Ask what was done at the machine then and where hands were; or isolate and lock out.";

    public static IEnumerable<TimelineFault> Faults(DutyFrame duty, ImmutableArray<OrderedEvent> claims)
    {
        if (duty.Record.Tasks.Any(task => HandsAtTheBlades.IsFromOutside(duty, task)))
        {
            return [];
        }

        return OthersWithHandsIn.Faults(duty).Concat(Shown(duty, claims));
    }

    private static IEnumerable<TimelineFault> Shown(DutyFrame duty, ImmutableArray<OrderedEvent> claims) =>
        from entry in duty.Reading.Events
        where IsAgainst(duty, entry)
        let work = AmidWork.Of(duty.Reading, entry)
        where work is not null
        select new TimelineFault(
            Verdict.Unproven,
            FindingReason.StepMissing,
            $"Minor servicing is claimed, and the record shows {EventWords.Done(entry.Event)} {duty.Words.AtBy(entry)} while {work.Person} was at work: that nothing moved within their reach is not shown.",
            [.. claims, entry, work.Start],
            Act
        );

    private static bool IsAgainst(DutyFrame duty, OrderedEvent entry) =>
        entry.Event switch
        {
            { Kind: TimelineEventKind.DriveDisengaged or TimelineEventKind.EnergisedTaskPerformed } => true,
            { Kind: TimelineEventKind.IsolatorOperated, Position: IsolatorPosition.On } => true,
            { Kind: TimelineEventKind.SeenAtRest } => IsFirstSinceStart(duty.Reading, entry),
            { Kind: TimelineEventKind.StoredEnergyRechecked } => duty.Sources.Any(source =>
                entry.Event.SpeaksOf(source.Source.Id)
                && SourceReading.IsAboveLimit(source.Source, entry.Event)
            ),
            _ => false,
        };

    // Seen again is no news; seen for the first time says that until then it may have turned.
    private static bool IsFirstSinceStart(TimelineReading reading, OrderedEvent seen) =>
        reading
            .Events.Where(entry => entry.Place() < seen.Place())
            .LastOrDefault(entry =>
                entry.Event.Kind
                    is TimelineEventKind.SeenAtRest
                        or TimelineEventKind.MachineStarted
                        or TimelineEventKind.TestEnergised
            )
            is not { Event.Kind: TimelineEventKind.SeenAtRest };
}
