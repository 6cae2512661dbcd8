using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Text;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// No adjuster was turned while the reel ran, unless the procedure names the control by which it is turned from outside
/// the danger zone; nor between two runs, click by click, before the stop that the procedure states, or, where it states
/// none in the words of entries, outside the person's own protected interval.
/// </summary>
internal static class AdjusterUntouchedDuty
{
    private const string Act =
        "Stop the reel as the procedure says before the adjuster is touched, also for a single click.";

    private static readonly FrozenDictionary<string, TimelineEventKind> Kinds =
        Enum.GetValues<TimelineEventKind>()
            .ToFrozenDictionary(kind => Snake(kind.ToString()), StringComparer.Ordinal);

    public static CheckOutcome Judge(DutyFrame duty)
    {
        var runs = TestRun.Of(duty);
        if (runs.IsEmpty)
        {
            return TimelineOutcome.NotApplicable("The record shows no run of the reel.");
        }

        var turns = Turns(duty).ToImmutableArray();
        if (turns.IsEmpty)
        {
            return TimelineOutcome.NotApplicable("The record shows no adjuster turned in this job.");
        }

        var faults = turns.Select(turn => Fault(duty, runs, turn)).OfType<TimelineFault>().ToList();
        if (faults.Count > 0)
        {
            return TimelineOutcome.OfFaults(faults) with
            {
                Evidence =
                [
                    .. turns
                        .Where(turn => Fault(duty, runs, turn) is not null)
                        .Select(turn => turn.Pointer)
                        .Order(StringComparer.Ordinal),
                ],
            };
        }

        return turns.Any(turn => turn.Moment is null)
            ? TimelineOutcome.Of(
                Verdict.Unproven,
                FindingReason.StepMissing,
                "The record shows the reel run and adjusters turned, and does not say when each was turned.",
                [
                    .. turns
                        .Where(turn => turn.Moment is null)
                        .Select(turn => turn.Pointer)
                        .Order(StringComparer.Ordinal),
                ],
                "Enter the time of each turn on a job in which the reel is run."
            )
            : TimelineOutcome.Met(
                duty.Reading,
                "The record shows no adjuster turned while the reel ran, nor before the stop that the procedure asks for.",
                [.. runs.Select(run => run.Start)]
            );
    }

    private static IEnumerable<Turn> Turns(DutyFrame duty)
    {
        for (var unit = 0; unit < duty.Record.Units.Length; unit++)
        {
            var entries = duty.Record.Units[unit].Entries;
            for (var index = 0; index < entries.Length; index++)
            {
                if (entries[index] is Adjustment turned)
                {
                    yield return new(
                        duty.Record.Units[unit].Id,
                        turned,
                        turned.At is { } at ? JudgedOrder.MomentOf(at, duty.Context.Zone) : null,
                        Pointers.Entry(unit, index)
                    );
                }
            }
        }
    }

    private static TimelineFault? Fault(DutyFrame duty, ImmutableArray<TestRun> runs, Turn turn)
    {
        if (turn.Moment is not { } moment)
        {
            return null;
        }

        var last = runs.LastOrDefault(run => run.Start.Moment < moment);
        if (last is null)
        {
            return null;
        }

        var task = EnergisedTaskDuties.Listed(duty, last.Task);
        var told = $"The record shows an adjuster of {turn.Unit} turned at {duty.Words.Time(turned(turn))}";
        if (last.End is null || moment < last.End.Moment)
        {
            return task is { AdjusterControl: not null }
                ? null
                : new(
                    Verdict.NotMet,
                    FindingReason.Unprotected,
                    $"{told}, while the reel was running ({last.Named}).",
                    [last.Start],
                    Act
                );
        }

        if (task is not null && StopOf(task.Stop) is { IsEmpty: false } stop)
        {
            var missing = stop.Where(kind =>
                    !duty
                        .Reading.Of(kind)
                        .Any(entry => entry.Place() > last.Start.Place() && entry.Moment <= moment)
                )
                .ToImmutableArray();
            return missing.IsEmpty
                ? null
                : new(
                    Verdict.NotMet,
                    FindingReason.Unprotected,
                    $"{told}, after {last.Named}; the procedure asks for a stop first, and the record does not show {TimelineWords.List(missing.Select(EventWords.Done))}.",
                    [last.Start, last.End],
                    Act
                );
        }

        return IsProtected(duty, turn, moment)
            ? null
            : new(
                Verdict.NotMet,
                FindingReason.Unprotected,
                $"{told}, after {last.Named} and before everything was isolated, locked and verified again.",
                [last.Start, last.End],
                Act
            );

        static RecordedTime turned(Turn turn) => turn.Entry.At!;
    }

    private static bool IsProtected(DutyFrame duty, Turn turn, Moment moment)
    {
        if (duty.Reading.Protection is not { } protection)
        {
            return false;
        }

        // After every entry of the same minute: times are often noted to the minute.
        var place = new TimelinePlace(moment, int.MaxValue);
        IEnumerable<Id<Participant>> people = turn.Entry.By is { } by ? [by] : duty.Reading.HandsIn;
        return people.Any(person => protection.ProtectedFor(person).Contains(place));
    }

    /// <summary>
    /// A stop written in the words of entries, such as <c>machine_shut_down, seen_at_rest</c>; empty: in other words.
    /// </summary>
    private static ImmutableArray<TimelineEventKind> StopOf(string stop)
    {
        var parts = stop.Split(
            [',', ';'],
            StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries
        );
        var kinds = ImmutableArray.CreateBuilder<TimelineEventKind>(parts.Length);
        foreach (var part in parts)
        {
            if (!Kinds.TryGetValue(part.Replace(' ', '_'), out var kind))
            {
                return [];
            }

            kinds.Add(kind);
        }

        return kinds.ToImmutable();
    }

    private static string Snake(string name)
    {
        var text = new StringBuilder();
        foreach (var letter in name)
        {
            if (char.IsUpper(letter) && text.Length > 0)
            {
                text.Append('_');
            }

            text.Append(char.ToLowerInvariant(letter));
        }

        return text.ToString();
    }

    private sealed record Turn(Id<UnitWork> Unit, Adjustment Entry, Moment? Moment, string Pointer);
}
