using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Duties;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// Hands in outside the person's own protected interval: where that begins, and which of the steps is lacking for which
/// source. Running machines are told by <see cref="WorkWhileRunning"/> and not again here.
/// </summary>
internal static class WorkUnprotected
{
    public static IEnumerable<TimelineFault> Faults(
        TimelineReading reading,
        ProtectionReading protection,
        TimelineWords words
    )
    {
        if (reading.Works.IsEmpty && reading.StopsWithoutStart.IsEmpty && reading.IsOpen)
        {
            return reading.HandsIn.SelectMany(person => NotYet(reading, protection, person));
        }

        return reading
            .Works.SelectMany(work => DuringWork(reading, protection, work, words))
            .Concat(HandsInBetween(reading, protection, words))
            .Concat(UntilStopped(reading, protection, words));
    }

    private static IEnumerable<TimelineFault> DuringWork(
        TimelineReading reading,
        ProtectionReading protection,
        WorkInterval work,
        TimelineWords words
    )
    {
        var told = new HashSet<string>(StringComparer.Ordinal);
        var bare = IntervalSet
            .Of([work.Interval])
            .Without(protection.ProtectedFor(work.Person))
            .Without(reading.Running);
        // What a whole stretch lacks is told before what may only stand the wrong way round.
        foreach (var stretch in bare.Intervals.OrderBy(stretch => stretch.IsWithinAMinute()))
        {
            var from = stretch.From;
            var isAtStart = from == work.Start.Place();
            if (!isAtStart && work.Stop is null && !reading.IsOpen)
            {
                // Already told: the record shows no end of this work.
                continue;
            }

            var entry = reading.Events.First(entry => entry.Place() == from);
            var lacks = ProtectionLack
                .At(from, work.Person, reading, protection, words)
                .Where(lack => told.Add(lack.What))
                .ToList();
            if (lacks.Count > 0)
            {
                var fault = Fault(work, entry, isAtStart, lacks, words);
                yield return stretch.IsWithinAMinute() ? WithinAMinute(fault) : fault;
            }
        }
    }

    // Begun and made good in one printed minute: the entries may only stand the wrong way round.
    private static TimelineFault WithinAMinute(TimelineFault fault) =>
        fault.Verdict == Verdict.NotMet
            ? LeadUpOutcome.Untold(
                fault with
                {
                    Text =
                        fault.Text.TrimEnd('.')
                        + ", and it was so again in the same minute: which came first it cannot tell.",
                }
            )
            : fault;

    private static TimelineFault Fault(
        WorkInterval work,
        OrderedEvent entry,
        bool isAtStart,
        List<ProtectionLack> lacks,
        TimelineWords words
    )
    {
        var lacking = string.Join("; ", lacks.Select(lack => lack.What));
        var mayHaveStopped = !isAtStart && work.Stop is null;
        return ByWordsAlone(
            lacks,
            new(
                mayHaveStopped ? Verdict.Unproven : Verdict.NotMet,
                mayHaveStopped ? FindingReason.InProgress : FindingReason.Unprotected,
                isAtStart
                    ? $"The record shows {work.Person} starting work at {words.Time(work.Start)}. By then it does not show {lacking}."
                    : $"The record shows {work.Person} at work from {words.Time(work.Start)}; after {EventWords.Done(entry.Event.Kind)} at {words.Time(entry)} it no longer shows {lacking}.",
                [
                    .. new[] { work.Start, entry, isAtStart ? null : work.Stop }
                        .OfType<OrderedEvent>()
                        .Concat(lacks.SelectMany(lack => lack.Entries))
                        .Distinct(),
                ],
                mayHaveStopped ? "Enter when work stopped, or make safe again." : lacks[0].Act
            )
        );
    }

    // Free words say nothing for certain: neither that it was off, nor that it was on.
    private static TimelineFault ByWordsAlone(
        IReadOnlyCollection<ProtectionLack> lacks,
        TimelineFault fault
    ) =>
        fault.Verdict == Verdict.NotMet && ProtectionLack.AreDenied(lacks)
            ? fault with
            {
                Verdict = Verdict.Unproven,
                Reason = FindingReason.NotCredible,
            }
            : fault;

    // A blockage is cleared with hands at the reel, whether or not work was entered as started.
    private static IEnumerable<TimelineFault> HandsInBetween(
        TimelineReading reading,
        ProtectionReading protection,
        TimelineWords words
    ) =>
        from entry in reading.Of(
            TimelineEventKind.BlockageClearedWithTool,
            TimelineEventKind.BlockageClearedByHand
        )
        where
            !reading.Works.Any(work =>
                work.Person == entry.Event.Actor && work.Interval.Contains(entry.Place())
            )
        let lacks = ProtectionLack.At(entry.Place(), entry.Event.Actor, reading, protection, words).ToList()
        where lacks.Count > 0
        select ByWordsAlone(
            lacks,
            new(
                Verdict.NotMet,
                FindingReason.Unprotected,
                $"The record shows {EventWords.Done(entry.Event.Kind)} {words.AtBy(entry)}. By then it does not show {string.Join("; ", lacks.Select(lack => lack.What))}.",
                [.. new[] { entry }.Concat(lacks.SelectMany(lack => lack.Entries)).Distinct()],
                lacks[0].Act
            )
        );

    // Whoever stops work had hands in until then, whether or not the start was entered.
    private static IEnumerable<TimelineFault> UntilStopped(
        TimelineReading reading,
        ProtectionReading protection,
        TimelineWords words
    ) =>
        from stop in reading.StopsWithoutStart
        where reading.Running.StretchAt(stop.Place()) is null
        let lacks = ProtectionLack.At(stop.Place(), stop.Event.Actor, reading, protection, words).ToList()
        where lacks.Count > 0
        select ByWordsAlone(
            lacks,
            new(
                Verdict.NotMet,
                FindingReason.Unprotected,
                $"The record shows {stop.Event.Actor} at work until {words.Time(stop)}. By then it does not show {string.Join("; ", lacks.Select(lack => lack.What))}.",
                [.. new[] { stop }.Concat(lacks.SelectMany(lack => lack.Entries)).Distinct()],
                lacks[0].Act
            )
        );

    private static IEnumerable<TimelineFault> NotYet(
        TimelineReading reading,
        ProtectionReading protection,
        Id<Participant> person
    )
    {
        var last = reading.Events.IsEmpty ? TimelinePlace.Beginning : reading.Events[^1].Place();
        var lacks = ProtectionLack
            .At(last, person, reading, protection, reading.Words)
            .Select(lack => lack.What)
            .ToImmutableArray();
        if (lacks.Length > 0)
        {
            yield return TimelineFault.NotYet(
                string.Join("; ", lacks),
                "Make safe before touching the unit.",
                of: $"for {person}"
            );
        }
    }
}
