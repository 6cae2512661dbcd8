using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>
/// More readings by hand than there was time for: in the hands-on work of everybody together, or, by their own times, in a row by one
/// person.
/// </summary>
internal static class ReadingTimes
{
    /// <summary>To set a gauge on, slip a feeler or a strip in, and see what it says. Common practice, no source.</summary>
    private static readonly TimeSpan LeastOfOne = TimeSpan.FromSeconds(3);

    /// <summary>Fewer readings than this are no haste, as with steps. Judgement, no source.</summary>
    private const int FewestReadings = 3;

    private static readonly TimeSpan Minute = TimeSpan.FromMinutes(1);

    /// <summary>One doubt for the work of the job, and one for each person.</summary>
    public static IEnumerable<EntryDoubt> In(TimelineReading reading)
    {
        if (InWork(reading) is { } tooMany)
        {
            yield return tooMany;
        }

        // What was entered afterwards, by its label, may have been entered in one go.
        if (IsLabelled(reading))
        {
            yield break;
        }

        foreach (var own in Timed(reading).GroupBy(one => one.Entry.By))
        {
            if (Burst(reading, [.. own.OrderBy(one => one.Moment)]) is { } tooFast)
            {
                yield return tooFast;
            }
        }
    }

    /// <summary>Where a start or an end of work is not shown, nothing is known of its time.</summary>
    private static EntryDoubt? InWork(TimelineReading reading)
    {
        if (
            reading.Works.IsEmpty
            || !reading.StopsWithoutStart.IsEmpty
            || reading.Works.Any(work => work.Stop is null)
            || (!reading.Frame.HasIsolation && IsLabelled(reading))
        )
        {
            return null;
        }

        var read = ByHand(reading)
            .Where(one => IsInWork(reading, one.Entry))
            .Select(one => one.Pointer)
            .ToList();
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

    /// <summary>The first row of readings that took less than it takes, the first of them not counted; null: none did.</summary>
    private static EntryDoubt? Burst(TimelineReading reading, ImmutableArray<TimedReading> own)
    {
        // Of readings that do not say by whom, everybody with hands in may have read a part.
        var each = own[0].Entry.By is null ? LeastOfOne / Math.Max(1, reading.HandsIn.Length) : LeastOfOne;
        // How much of the time there was is left over at each reading: what falls behind an earlier one came too fast.
        var left = own.Select((one, index) => one.Moment - own[0].Moment - each * index).ToImmutableArray();
        var (most, seconds) = (new int[own.Length], -1);
        for (var last = 0; last < own.Length; last++)
        {
            most[last] = last > 0 && left[last] <= left[most[last - 1]] ? most[last - 1] : last;
            seconds = IsToTheMinute(own[last]) ? seconds : last;
            if (last < FewestReadings - 1)
            {
                continue;
            }

            var longest = most[last - FewestReadings + 1];
            // A row in which seconds were noted somewhere is held to seconds.
            var noted = seconds < 0 ? longest : most[Math.Min(seconds, last - FewestReadings + 1)];
            if (seconds >= 0 && left[noted] > left[last])
            {
                return TooFast(own, noted, last, left, each);
            }

            if (left[longest] - left[last] > Minute)
            {
                return TooFast(own, longest, last, left, each);
            }
        }

        return null;
    }

    private static EntryDoubt TooFast(
        ImmutableArray<TimedReading> own,
        int first,
        int last,
        ImmutableArray<TimeSpan> left,
        TimeSpan each
    )
    {
        while (last + 1 < own.Length && left[last + 1] < left[last])
        {
            last++;
        }

        var least = each * (last - first);
        return new(
            CredibilityOf.EntryTimes,
            own[first].Pointer,
            string.Create(
                CultureInfo.InvariantCulture,
                $"{last - first + 1} readings by hand{(own[first].Entry.By is { } by ? $" by {by}" : string.Empty)} are timed within {SecondsWords.Of(own[last].Moment - own[first].Moment)} from {own[first].Entry.At!.Text}, which take {SecondsWords.Of(least)} at the least"
            ),
            Weakens: false
        )
        {
            Against = own[last].Pointer,
        };
    }

    private static IEnumerable<TimedReading> Timed(TimelineReading reading) =>
        from one in ByHand(reading)
        where one.Entry.At is not null
        select new TimedReading(
            one.Pointer,
            one.Entry,
            JudgedOrder.MomentOf(one.Entry.At!, reading.Frame.Context.Zone)
        );

    private static bool IsToTheMinute(TimedReading one) =>
        one.Moment.Utc.Ticks % TimeSpan.TicksPerMinute == 0;

    /// <summary>
    /// A start or an end of hands-on work is labelled as entered later or copied; where neither is entered, as none need be at the bench,
    /// any entry.
    /// </summary>
    private static bool IsLabelled(TimelineReading reading)
    {
        var work = reading.Of(TimelineEventKind.WorkStarted, TimelineEventKind.WorkStopped);
        return (work.IsEmpty ? reading.Events : work).Any(entry => entry.IsLabelledLate());
    }

    private static TimeSpan Longest(TimelineReading reading, WorkInterval work) =>
        work.Stop!.Moment
        - work.Start.Moment
        + (NotesMinutesOnly(reading, work.Person) ? Minute : TimeSpan.Zero);

    private static bool NotesMinutesOnly(TimelineReading reading, Id<Participant> person) =>
        reading.Events.Where(entry => entry.Event.Actor == person).All(entry => entry.IsToTheMinute());

    // What is only looked at takes no time.
    private static IEnumerable<(string Pointer, Reading Entry)> ByHand(TimelineReading reading)
    {
        var units = reading.Frame.Record.Units;
        for (var unit = 0; unit < units.Length; unit++)
        {
            for (var index = 0; index < units[unit].Entries.Length; index++)
            {
                if (
                    units[unit].Entries[index] is Reading
                    {
                        Observed: Observation.Measured
                            or Observation.MeasuredAngle
                            or Observation.FeelerTest
                            or Observation.Paper
                    } entry
                )
                {
                    yield return (Pointers.Entry(unit, index), entry);
                }
            }
        }
    }

    // What has a time outside the work was read at another time.
    private static bool IsInWork(TimelineReading reading, Reading entry) =>
        entry.At is not { } at
        || JudgedOrder.MomentOf(at, reading.Frame.Context.Zone) is var moment
            && reading.Works.Any(work => work.Start.Moment <= moment && moment <= work.Stop!.Moment);

    private sealed record TimedReading(string Pointer, Reading Entry, Moment Moment);
}
