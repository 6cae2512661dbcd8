using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// Hands at a unit at a time that the bench log states, outside the hands-on work that the timeline shows: then too they
/// are only in inside protection. What is turned during or after a run of the reel is judged by the procedure of that task
/// and not here; what is read or fitted then has no such procedure.
/// </summary>
internal static class HandsByTheLog
{
    public static IEnumerable<TimelineFault> Faults(
        TimelineReading reading,
        ProtectionReading? protection,
        TimelineWords words
    )
    {
        var contradicted = BenchTimes.OutOfOrder(reading);
        // Ten feelers of one minute are one time that hands were in.
        return from hands in reading.HandsByTheLog
            let fault = Fault(hands, !contradicted.Contains(hands.Pointer), reading, protection, words)
            where fault is not null
            group fault by fault.Text into same
            select same.First() with
            {
                Beside = [.. same.SelectMany(fault => fault.Beside ?? [])],
            };
    }

    private static TimelineFault? Fault(
        HandsAtUnit hands,
        bool isInOrder,
        TimelineReading reading,
        ProtectionReading? protection,
        TimelineWords words
    )
    {
        var ran = reading.Energisings.LastOrDefault(start => start.Moment <= hands.Moment);
        // Times are often noted to the minute: before or after every entry of it.
        ImmutableArray<TimelinePlace> places =
        [
            new(hands.Moment, int.MinValue),
            new(hands.Moment, int.MaxValue),
        ];
        var isRunning = ran is not null && places.All(reading.Running.Contains);
        if (IsJudgedElsewhere(reading, hands, ran, isRunning) || hands.IsDuringWork(reading))
        {
            return null;
        }

        var told =
            $"The record shows {hands.What} at {words.Time(hands.At)}{(hands.Entry.By is { } who ? $" by {who}" : string.Empty)}, outside the hands-on work that it shows";
        if (ran is not null && isRunning)
        {
            return new(
                isInOrder ? Verdict.NotMet : Verdict.Unproven,
                isInOrder ? FindingReason.Unprotected : FindingReason.NotCredible,
                $"{told}, while the machine ran ({EventWords.Done(ran.Event.Kind)} at {words.Time(ran)}){OnlyByClock(isInOrder)}.",
                [ran],
                hands.IsReading
                    ? "Nobody reaches in to read while the machine runs: stop, isolate, lock and verify first."
                    : $"Nobody touches {Touched(hands)} while the machine runs: stop, isolate, lock and verify first.",
                [hands.Pointer]
            );
        }

        return protection is null
            ? null
            : Unprotected(hands, isInOrder, told, places, reading, protection, words);
    }

    private static TimelineFault? Unprotected(
        HandsAtUnit hands,
        bool isInOrder,
        string told,
        ImmutableArray<TimelinePlace> places,
        TimelineReading reading,
        ProtectionReading protection,
        TimelineWords words
    )
    {
        ImmutableArray<Id<Participant>> people = hands.Entry.By is { } by ? [by] : reading.HandsIn;
        if (people.IsEmpty || people.Any(person => places.Any(protection.ProtectedFor(person).Contains)))
        {
            return null;
        }

        var lacks = ProtectionLack.At(places[1], people[0], reading, protection, words).ToList();
        if (lacks.Count == 0)
        {
            return null;
        }

        var isLive = protection
            .SourcesAt(places[1])
            .Any(source => source.HasIsolator && !places.Any(place => IsHeldOff(source, place)));
        var isShown = isLive && isInOrder;
        return new(
            isShown ? Verdict.NotMet : Verdict.Unproven,
            isShown ? FindingReason.Unprotected
                : isInOrder ? FindingReason.StepMissing
                : FindingReason.NotCredible,
            $"{told}. By then it does not show {string.Join("; ", lacks.Select(lack => lack.What))}{OnlyByClock(isInOrder)}.",
            [.. lacks.SelectMany(lack => lack.Entries).Distinct()],
            Act(hands, isShown),
            [hands.Pointer]
        );
    }

    private static string Act(HandsAtUnit hands, bool isShown) =>
        (hands.IsReading, isShown) switch
        {
            (true, true) =>
                "Nobody reaches in to read before the unit is isolated, locked and verified, not even for one feeler.",
            (true, false) => "Have whoever read it say when, and enter the work it was part of.",
            (false, true) =>
                $"Nobody touches {Touched(hands)} before the unit is isolated, locked and verified, not even for a click.",
            (false, false) => "Have whoever did it say when, and enter the work it was part of.",
        };

    private static string Touched(HandsAtUnit hands) =>
        hands.Entry is Adjustment ? "an adjuster" : "the unit";

    // The contact of a turning reel is heard, not felt.
    private static bool IsJudgedElsewhere(
        TimelineReading reading,
        HandsAtUnit hands,
        OrderedEvent? ran,
        bool isRunning
    ) =>
        ran is not null
        && (ran.IsTestRun() || (ran.Moment < hands.Moment && BenchTimes.IsForTask(reading, ran)))
        && (
            hands.Entry is Adjustment
            || (isRunning && hands.Entry is Reading { Observed: Observation.Contact })
        );

    private static string OnlyByClock(bool isInOrder) =>
        isInOrder ? string.Empty : "; its time contradicts the order of the bench log";

    // Words that deny the entry show it neither off nor on.
    private static bool IsHeldOff(SourceReading source, TimelinePlace place) =>
        (source.Isolated.Contains(place) || source.IsolationDenied.Contains(place))
        && (source.Held.Contains(place) || !source.Source.Lockable);
}
