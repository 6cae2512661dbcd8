using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// Somebody who is to have hands in on an open job and does not yet: what they lack before they may begin, whoever else
/// is or was at work.
/// </summary>
/// <param name="Person">Who.</param>
/// <param name="Barred">Why they may not begin at all, after their name; null: the register does not say so.</param>
/// <param name="Lacks">What is not shown yet of them and of the machine, in the order in which it is done.</param>
public sealed record StillOut(Id<Participant> Person, string? Barred, ImmutableArray<string> Lacks)
{
    /// <summary>Everybody of an open job who never had hands in; empty on a finished one.</summary>
    public static ImmutableArray<StillOut> Of(JobFrame job)
    {
        ArgumentNullException.ThrowIfNull(job);
        if (OpenJob.Of(job) is not { } duty)
        {
            return [];
        }

        return
        [
            .. duty
                .Reading.HandsIn.Where(person => duty.Reading.FirstWorkOf(person) is null)
                .Select(person => new StillOut(
                    person,
                    WorkByAuthorisedDuty.Barred(duty, person),
                    [.. LacksOf(duty, person)]
                )),
        ];
    }

    private static IEnumerable<string> LacksOf(DutyFrame duty, Id<Participant> person)
    {
        var reading = duty.Reading;
        if (reading.Events.IsEmpty || Suppression.HoldingExemption(duty) is not null)
        {
            yield break;
        }

        foreach (var lack in ProtectionNow.Lacking(duty, person))
        {
            yield return lack;
        }

        if (Before(reading) is { IsEmpty: false } before && !IsBriefed(reading, before, person))
        {
            yield return $"{EventWords.Done(TimelineEventKind.HandoverBriefed)} between {person} and {TimelineWords.List(before.Select(one => one.Text))}";
        }
    }

    // Those whom the next to begin takes over from: whoever was in last, where nobody is in now. After a run it is no handover.
    private static ImmutableArray<Id<Participant>> Before(TimelineReading reading) =>
        reading.AnyWork.Intervals is [.., { Until: { } until } stretch]
        && reading.Running.And(IntervalSet.Of([new(until, null)])).Intervals.IsEmpty
            ?
            [
                .. reading
                    .Works.Where(work => stretch.Contains(work.Start.Place()))
                    .Select(work => work.Person)
                    .Distinct(),
            ]
            : [];

    private static bool IsBriefed(
        TimelineReading reading,
        ImmutableArray<Id<Participant>> before,
        Id<Participant> person
    )
    {
        var isAlone = reading.HandsIn.Count(one => reading.FirstWorkOf(one) is null) == 1;
        return reading
            .Of(TimelineEventKind.HandoverBriefed)
            .Where(entry => entry.Place() > reading.AnyWork.Intervals[^1].From)
            .Any(entry => HandoverBriefing.IsOf(entry, person, isAlone, who => before.Contains(who)));
    }
}
