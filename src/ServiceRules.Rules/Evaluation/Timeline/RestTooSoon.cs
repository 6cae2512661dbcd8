using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>
/// Everything said to be at rest sooner after a stop than anybody can have seen it, or than the machine runs down as its
/// procedure states.
/// </summary>
internal static class RestTooSoon
{
    private static readonly TimeSpan Minute = TimeSpan.FromMinutes(1);

    /// <summary>One doubt for every such entry that is not labelled as made later.</summary>
    public static IEnumerable<EntryDoubt> In(TimelineReading reading)
    {
        var stops = reading.Of(TimelineEventKind.MachineShutDown, TimelineEventKind.TestEnded);
        foreach (var entry in reading.Of(TimelineEventKind.SeenAtRest))
        {
            var before = stops.Where(stop => stop.Place() < entry.Place()).ToList();
            if (entry.IsLabelledLate() || before.Count == 0)
            {
                continue;
            }

            var ran = reading.Energisings.LastOrDefault(start => start.Place() < entry.Place());
            var stopped =
                before.Find(stop => ran is null || stop.Place() > ran.Place() || stop.Index == ran.Index)
                ?? before[^1];
            var needed = TimeSpan.FromSeconds(reading.Frame.Procedure?.RunDownSeconds ?? 0);
            if (Since(stopped, entry) < needed)
            {
                yield return Doubt(
                    reading,
                    entry,
                    stopped,
                    $"which procedure {reading.Frame.Procedure!.Id} says takes {SecondsWords.Of(needed)} to run down"
                );
            }
            else if (Since(before[^1], entry) < LeastTime.Of(entry.Event))
            {
                yield return Doubt(
                    reading,
                    entry,
                    before[^1],
                    $"and a look takes {SecondsWords.Of(LeastTime.Of(entry.Event))} at the least"
                );
            }
        }
    }

    // Where seconds were not noted, the two may stand a minute further apart than they say.
    private static TimeSpan Since(OrderedEvent stop, OrderedEvent entry) =>
        entry.Moment - stop.Moment + (stop.IsToTheMinute() && entry.IsToTheMinute() ? Minute : TimeSpan.Zero);

    private static EntryDoubt Doubt(
        TimelineReading reading,
        OrderedEvent entry,
        OrderedEvent stop,
        string why
    ) =>
        new(
            CredibilityOf.RestTooSoon,
            entry.Pointer(),
            $"{EventWords.Done(entry.Event.Kind)} {reading.Words.AtBy(entry)} is entered {SecondsWords.Of(entry.Moment - stop.Moment)} after "
                + $"{EventWords.Done(stop.Event.Kind)} at {reading.Words.Time(stop)}, {why}",
            Weakens: true
        )
        {
            Against = stop.Pointer(),
        };
}
