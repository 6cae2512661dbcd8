using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>
/// Steps at different places of the machine that one person cannot have made as fast as they are recorded. The steps
/// from the seat (drive, units, brake, engine, key) follow each other in seconds and are not counted.
/// </summary>
internal static class StepBursts
{
    /// <summary>How many counted steps within the window are too many. Judgement, no source.</summary>
    private const int TooMany = 4;

    /// <summary>How many with one and the same time to the whole minute, where seconds were not noted. Judgement, no source.</summary>
    private const int TooManyInAMinute = 8;

    /// <summary>
    /// Four seconds from one step to the next: nobody turns an isolator off, hangs a lock, bleeds a circuit or tries a control in less. From
    /// the seat several controls are moved in that time, which is why they are not counted. Judgement, no source.
    /// </summary>
    private static readonly TimeSpan Window = TimeSpan.FromSeconds(12);

    /// <summary>One doubt for every entry of a burst.</summary>
    public static IEnumerable<EntryDoubt> In(TimelineReading reading)
    {
        var byPerson =
            from entry in reading.Events
            where !entry.IsLabelledLate()
            group entry by entry.Event.Actor;
        foreach (var person in byPerson)
        {
            foreach (var burst in BurstsOf([.. person]))
            {
                foreach (var entry in burst)
                {
                    yield return new(
                        CredibilityOf.Bursts,
                        entry.Pointer(),
                        $"{burst.Count} steps by {person.Key} are recorded within twelve seconds from {burst[0].Event.At.Text}",
                        Weakens: true
                    );
                }
            }
        }
    }

    private static IEnumerable<List<OrderedEvent>> BurstsOf(List<OrderedEvent> entries)
    {
        for (var first = 0; first < entries.Count; )
        {
            var together = entries
                .Skip(first)
                .TakeWhile(entry => entry.Moment - entries[first].Moment <= Window)
                .ToList();
            var most = together.TrueForAll(entry => entry.Moment.Utc.Ticks % TimeSpan.TicksPerMinute == 0)
                ? TooManyInAMinute
                : TooMany;
            var isBurst = DistinctSteps(together) >= most;
            if (isBurst)
            {
                yield return together;
            }

            first += isBurst ? together.Count : 1;
        }
    }

    private static int DistinctSteps(List<OrderedEvent> together) =>
        together
            .Where(entry => IsAtTheMachine(entry.Event.Kind))
            .Select(entry => (entry.Event.Kind, entry.Event.Source))
            .Distinct()
            .Count();

    /// <summary>A step made with hands at the machine, away from the seat.</summary>
    internal static bool IsAtTheMachine(TimelineEventKind kind) =>
        kind
            is TimelineEventKind.IsolatorOperated
                or TimelineEventKind.PlugRemoved
                or TimelineEventKind.LockApplied
                or TimelineEventKind.TagApplied
                or TimelineEventKind.StoredEnergyReleased
                or TimelineEventKind.ReelWedged
                or TimelineEventKind.UnitSupported
                or TimelineEventKind.IsolationVerified
                or TimelineEventKind.AreaInspected
                or TimelineEventKind.GuardsRefitted
                or TimelineEventKind.CutOutsProved
                or TimelineEventKind.PeopleClearChecked
                or TimelineEventKind.LockRemoved
                or TimelineEventKind.TagRemoved;
}
