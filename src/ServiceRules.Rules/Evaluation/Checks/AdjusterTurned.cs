using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// Hands on an adjuster at a time that the bench log states, outside the hands-on work that the timeline shows: then too
/// they are only in inside protection. What is turned during or after a run of the reel is judged by the procedure of that
/// task and not here.
/// </summary>
internal static class AdjusterTurned
{
    public static IEnumerable<TimelineFault> Faults(
        TimelineReading reading,
        ProtectionReading? protection,
        TimelineWords words
    )
    {
        var contradicted = BenchTimes.OutOfOrder(reading);
        var units = reading.Frame.Record.Units;
        for (var unit = 0; unit < units.Length; unit++)
        {
            for (var index = 0; index < units[unit].Entries.Length; index++)
            {
                if (units[unit].Entries[index] is Adjustment { At: { } at } turned)
                {
                    var pointer = Pointers.Entry(unit, index);
                    var turn = new Turn(units[unit].Id, turned, at, pointer, !contradicted.Contains(pointer));
                    if (Fault(turn, reading, protection, words) is { } fault)
                    {
                        yield return fault;
                    }
                }
            }
        }
    }

    private static TimelineFault? Fault(
        Turn turn,
        TimelineReading reading,
        ProtectionReading? protection,
        TimelineWords words
    )
    {
        var moment = JudgedOrder.MomentOf(turn.At, reading.Frame.Context.Zone);
        var ran = reading.Energisings.LastOrDefault(start => start.Moment <= moment);
        ImmutableArray<Id<Participant>> people = turn.Entry.By is { } by ? [by] : reading.HandsIn;
        if (ran?.Event.Kind == TimelineEventKind.TestEnergised || IsDuringWork(turn, reading, moment))
        {
            return null;
        }

        // Times are often noted to the minute: before or after every entry of it.
        ImmutableArray<TimelinePlace> places = [new(moment, int.MinValue), new(moment, int.MaxValue)];
        var told =
            $"The record shows an adjuster of {turn.Unit} turned at {words.Time(turn.At)}{(turn.Entry.By is { } who ? $" by {who}" : string.Empty)}, outside the hands-on work that it shows";
        if (ran is not null && places.All(reading.Running.Contains))
        {
            return new(
                turn.IsInOrder ? Verdict.NotMet : Verdict.Unproven,
                turn.IsInOrder ? FindingReason.Unprotected : FindingReason.NotCredible,
                $"{told}, while the machine ran ({EventWords.Done(ran.Event.Kind)} at {words.Time(ran)}){OnlyByClock(turn)}.",
                [ran],
                "Nobody touches an adjuster while the machine runs: stop, isolate, lock and verify first.",
                [turn.Pointer]
            );
        }

        if (
            protection is null
            || people.IsEmpty
            || people.Any(person => places.Any(protection.ProtectedFor(person).Contains))
        )
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
        var isShown = isLive && turn.IsInOrder;
        return new(
            isShown ? Verdict.NotMet : Verdict.Unproven,
            isShown ? FindingReason.Unprotected
                : turn.IsInOrder ? FindingReason.StepMissing
                : FindingReason.NotCredible,
            $"{told}. By then it does not show {string.Join("; ", lacks.Select(lack => lack.What))}{OnlyByClock(turn)}.",
            [.. lacks.SelectMany(lack => lack.Entries).Distinct()],
            isShown
                ? "Nobody touches an adjuster before the unit is isolated, locked and verified, not even for a click."
                : "Have whoever turned it say when, and enter the work it was part of.",
            [turn.Pointer]
        );
    }

    private static string OnlyByClock(Turn turn) =>
        turn.IsInOrder ? string.Empty : "; its time contradicts the order of the bench log";

    private static bool IsHeldOff(SourceReading source, TimelinePlace place) =>
        source.Isolated.Contains(place) && (source.Held.Contains(place) || !source.Source.Lockable);

    private static bool IsDuringWork(Turn turn, TimelineReading reading, Moment moment) =>
        reading.Works.Any(work =>
            (turn.Entry.By is not { } by || work.Person == by)
            && work.Start.Moment <= moment
            && (work.Stop is not { } stop || moment <= stop.Moment)
        );

    private sealed record Turn(
        Id<UnitWork> Unit,
        Adjustment Entry,
        RecordedTime At,
        string Pointer,
        bool IsInOrder
    );
}
