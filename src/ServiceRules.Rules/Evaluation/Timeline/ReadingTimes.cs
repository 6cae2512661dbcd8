using System.Globalization;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>More readings by hand than the hands-on work of everybody together had time for.</summary>
internal static class ReadingTimes
{
    /// <summary>To set a gauge on, slip a feeler or a strip in, and see what it says. Common practice, no source.</summary>
    private static readonly TimeSpan LeastOfOne = TimeSpan.FromSeconds(3);

    /// <summary>Fewer readings than this are no haste, as with steps. Judgement, no source.</summary>
    private const int FewestReadings = 3;

    private static readonly TimeSpan Minute = TimeSpan.FromMinutes(1);

    /// <summary>The doubt, or null. Where a start or an end of work is not shown, nothing is known of its time.</summary>
    public static EntryDoubt? In(TimelineReading reading)
    {
        if (
            !reading.Frame.HasIsolation
            || reading.Works.IsEmpty
            || !reading.StopsWithoutStart.IsEmpty
            || reading.Works.Any(work => work.Stop is null)
        )
        {
            return null;
        }

        var read = ByHand(reading).ToList();
        var least = LeastOfOne * read.Count;
        var had = reading.Works.Aggregate(TimeSpan.Zero, (sum, work) => sum + Longest(reading, work));
        return read.Count < FewestReadings || least <= had
            ? null
            : new(
                CredibilityOf.EntryTimes,
                read[0],
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{read.Count} readings by hand are entered for {had.TotalSeconds:0.#} seconds of hands-on work, which take {least.TotalSeconds:0} seconds at the least"
                ),
                Weakens: false
            )
            {
                Against = reading.Works[0].Start.Pointer(),
            };
    }

    private static TimeSpan Longest(TimelineReading reading, WorkInterval work) =>
        work.Stop!.Moment
        - work.Start.Moment
        + (NotesMinutesOnly(reading, work.Person) ? Minute : TimeSpan.Zero);

    private static bool NotesMinutesOnly(TimelineReading reading, Id<Participant> person) =>
        reading
            .Events.Where(entry => entry.Event.Actor == person)
            .All(entry => entry.Moment.Utc.Ticks % TimeSpan.TicksPerMinute == 0);

    // What has a time outside the work was read at another time; what is only looked at takes none.
    private static IEnumerable<string> ByHand(TimelineReading reading)
    {
        var units = reading.Frame.Record.Units;
        for (var unit = 0; unit < units.Length; unit++)
        {
            for (var index = 0; index < units[unit].Entries.Length; index++)
            {
                if (
                    units[unit].Entries[index]
                        is Reading
                        {
                            Observed: Observation.Measured
                                or Observation.MeasuredAngle
                                or Observation.FeelerTest
                                or Observation.Paper
                        } entry
                    && IsInWork(reading, entry)
                )
                {
                    yield return Pointers.Entry(unit, index);
                }
            }
        }
    }

    private static bool IsInWork(TimelineReading reading, Reading entry) =>
        entry.At is not { } at
        || JudgedOrder.MomentOf(at, reading.Frame.Context.Zone) is var moment
            && reading.Works.Any(work => work.Start.Moment <= moment && moment <= work.Stop!.Moment);
}
