using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>
/// Steps that one person cannot have made as fast as they are recorded: over a stretch of their entries, the least times of the
/// steps after the first come to more than the time that it took. What is tapped in twos is no burst.
/// </summary>
internal static class StepBursts
{
    /// <summary>Fewer steps than this are no burst: two are honestly entered together. Judgement, no source.</summary>
    private const int FewestSteps = 3;

    /// <summary>How many with one and the same time to the whole minute, where seconds were not noted. Judgement, no source.</summary>
    private const int TooManyInAMinute = 8;

    private static readonly TimeSpan Breath = TimeSpan.FromSeconds(1);

    /// <summary>Times to the whole minute may stand a minute further apart than they say.</summary>
    private static readonly TimeSpan Minute = TimeSpan.FromMinutes(1);

    /// <summary>
    /// After so much time to spare no later haste is told of the stretch any more: two steps alone lack less than this, and more
    /// than two are a stretch of their own.
    /// </summary>
    private static readonly TimeSpan Spared = TimeSpan.FromSeconds(30) + Minute;

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
                foreach (var entry in burst.Entries)
                {
                    yield return new(
                        CredibilityOf.Bursts,
                        entry.Pointer(),
                        $"{burst.Steps} steps by {person.Key} are recorded within {SecondsWords.Of(burst.Took)} from {burst.Entries[0].Event.At.Text}, "
                            + $"which take {SecondsWords.Of(burst.Least)} at the least",
                        Weakens: true
                    );
                }
            }
        }
    }

    private static IEnumerable<Stretch> BurstsOf(List<OrderedEvent> entries)
    {
        (int First, int Last)? open = null;
        foreach (var (first, last) in Shortest(entries))
        {
            if (open is { } before && first > before.Last)
            {
                yield return StretchOf(entries, before.First, before.Last);
                open = null;
            }

            open = (open?.First ?? first, last);
        }

        if (open is { } rest)
        {
            yield return StretchOf(entries, rest.First, rest.Last);
        }
    }

    /// <summary>The bursts that hold no shorter one, so that what was done at leisure before the haste is left out.</summary>
    private static Stack<(int First, int Last)> Shortest(List<OrderedEvent> entries)
    {
        var kept = new Stack<(int First, int Last)>();
        for (var first = entries.Count - 1; first >= 0; first--)
        {
            if (ShortestFrom(entries, first) is { } last && (kept.Count == 0 || last < kept.Peek().Last))
            {
                kept.Push((first, last));
            }
        }

        return kept;
    }

    /// <summary>Where the shortest burst that begins with an entry ends, or null: none does.</summary>
    private static int? ShortestFrom(List<OrderedEvent> entries, int first)
    {
        if (LeastTime.Of(entries[first].Event) == TimeSpan.Zero)
        {
            return null;
        }

        var seen = new HashSet<(TimelineEventKind, SourceReference?)> { StepOf(entries[first]) };
        var (least, inAMinute) = (TimeSpan.Zero, IsAtTheMachine(entries[first].Event.Kind) ? 1 : 0);
        var toTheMinute = entries[first].IsToTheMinute();
        for (var last = first + 1; last < entries.Count; last++)
        {
            var entry = entries[last];
            if (LeastTime.Of(entry.Event) is not { Ticks: > 0 } time)
            {
                continue;
            }

            if (seen.Add(StepOf(entry)))
            {
                least += time;
                inAMinute += IsAtTheMachine(entry.Event.Kind) ? 1 : 0;
            }

            toTheMinute &= entry.IsToTheMinute();
            var took = entry.Moment - entries[first].Moment;
            var isTooFast =
                seen.Count >= FewestSteps && least > took + (toTheMinute ? Minute : TimeSpan.Zero)
                || (toTheMinute && took == TimeSpan.Zero && inAMinute >= TooManyInAMinute);
            if (isTooFast)
            {
                return last;
            }

            if (took - least > Spared)
            {
                return null;
            }
        }

        return null;
    }

    /// <summary>The stretch with whatever the person entered in the same breath: that is no more credible.</summary>
    private static Stretch StretchOf(List<OrderedEvent> entries, int first, int last)
    {
        var (begin, end) = (entries[first].Moment, entries[last].Moment);
        while (first > 0 && begin - entries[first - 1].Moment <= Breath)
        {
            first--;
        }

        while (last < entries.Count - 1 && entries[last + 1].Moment - end <= Breath)
        {
            last++;
        }

        var steps = entries[first..(last + 1)]
            .Where(entry => LeastTime.Of(entry.Event) > TimeSpan.Zero)
            .DistinctBy(StepOf)
            .ToList();
        return new(
            entries[first..(last + 1)],
            steps.Count,
            entries[last].Moment - entries[first].Moment,
            steps.Skip(1).Aggregate(TimeSpan.Zero, (sum, step) => sum + LeastTime.Of(step.Event))
        );
    }

    private static (TimelineEventKind, SourceReference?) StepOf(OrderedEvent entry) =>
        (entry.Event.Kind, entry.Event.Source);

    /// <summary>Entries of one person that stand too close: their steps, the time they took and the least it takes.</summary>
    private sealed record Stretch(List<OrderedEvent> Entries, int Steps, TimeSpan Took, TimeSpan Least);

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
