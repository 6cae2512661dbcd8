using System.Collections.Immutable;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// A source that comes during the job, an attachment plugged in, comes with nobody's hands in, and is isolated, locked,
/// released and verified from then on before hands go in again.
/// </summary>
internal static class SourceAddedControlledDuty
{
    private const string Act =
        "Hands out; isolate, lock, release and verify what was added before work goes on.";

    public static CheckOutcome Judge(DutyFrame duty)
    {
        var added = duty
            .Reading.Of(TimelineEventKind.SourceAdded)
            .Where(entry => entry.Event.Source is SourceReference.One)
            .ToImmutableArray();
        if (added.IsEmpty)
        {
            return TimelineOutcome.NotApplicable(
                "The record shows no source of energy added during the job."
            );
        }

        var faults = added.SelectMany(entry => Faults(duty, entry)).ToList();
        return faults.Count > 0
            ? TimelineOutcome.OfFaults(faults)
            : TimelineOutcome.Met(
                duty.Reading,
                "The record shows every source added during the job brought under control before hands went in again.",
                added
            );
    }

    private static IEnumerable<TimelineFault> Faults(DutyFrame duty, OrderedEvent entry)
    {
        var words = duty.Words;
        var id = ((SourceReference.One)entry.Event.Source!).Source;
        if (duty.Sources.FirstOrDefault(source => source.Source.Id == id) is not { Source: var source })
        {
            yield break;
        }

        var during = duty.Reading.Works.FirstOrDefault(work => work.Interval.Contains(entry.Place()));
        if (during is not null)
        {
            yield return new(
                Verdict.NotMet,
                FindingReason.Unprotected,
                $"The record shows {TimelineWords.Named(source)} added {words.AtBy(entry)} while {during.Person}, at work from {words.Time(during.Start)}, had hands in.",
                [entry, during.Start],
                Act
            );
        }
        else if (duty.Reading.MayHaveBeenIn(entry.Place()).FirstOrDefault() is { } untold)
        {
            yield return new(
                Verdict.Unproven,
                FindingReason.StepMissing,
                $"The record shows {TimelineWords.Named(source)} added {words.AtBy(entry)}, and {untold.Event.Actor} at work until {words.Time(untold)}, but not from when.",
                [entry, untold],
                "Enter when hands-on work started, as a late entry."
            );
        }

        var next = duty.Reading.Works.FirstOrDefault(work => work.Start.Place() > entry.Place());
        var isAsked =
            next is not null
            || (duty.Reading.IsOpen && during is null && duty.Reading.EndOfWork() is not null)
            || (duty.Reading.IsOpen && duty.Reading.Works.IsEmpty);
        var lacking = isAsked ? Lacking(duty, source, entry, next).ToImmutableArray() : [];
        if (lacking.IsEmpty)
        {
            yield break;
        }

        yield return next is null
            ? NotYet(duty, source, entry, lacking)
            : new(
                Verdict.NotMet,
                FindingReason.Unprotected,
                $"The record shows {TimelineWords.Named(source)} added {words.AtBy(entry)}, and before work started {words.AtBy(next.Start)} it does not show {string.Join("; ", lacking)}.",
                [entry, next.Start],
                Act
            );
    }

    // What was never done to it at all is asked by the duties of those steps: here only that it comes after.
    private static TimelineFault NotYet(
        DutyFrame duty,
        EnergySource source,
        OrderedEvent entry,
        ImmutableArray<string> lacking
    )
    {
        var at = duty.Words.Time(entry);
        var told = TimelineFault.NotYet(
            string.Join("; ", lacking),
            Act,
            [entry],
            of: $"since {TimelineWords.Named(source)} was added at {at}"
        );
        var isUntouched =
            !SourceReading.Isolations(duty.Reading, source).Any()
            && !DevicesOn.Of(duty, source).Any()
            && !SourceReading.Releases(duty.Reading, source).Any();
        return isUntouched
            ? told with
            {
                StillToDo = $"all of that for {TimelineWords.Named(source)} after {at}, when it was added",
            }
            : told;
    }

    private static IEnumerable<string> Lacking(
        DutyFrame duty,
        EnergySource source,
        OrderedEvent added,
        WorkInterval? next
    )
    {
        // A lock that hung on its isolator already, and still does, holds what is plugged in behind it.
        var isHeld = duty.Reading.Devices.Any(device =>
            device.IsOn(source.Id)
            && device.HoldsOff
            && device.Applied.Place() < added.Place()
            && (device.Removed is not { } off || (next is not null && off.Place() > next.Start.Place()))
        );
        if (source.Isolator is not null && !isHeld)
        {
            if (!SourceReading.Isolations(duty.Reading, source).Any(IsSince))
            {
                yield return EventWords.Done(TimelineEventKind.IsolatorOperated);
            }

            if (!DevicesOn.Of(duty, source).Any(IsSince))
            {
                yield return "a lock or tag put on the isolator";
            }
        }

        if (source.Stored && !SourceReading.Releases(duty.Reading, source).Any(IsSince))
        {
            yield return EventWords.Done(TimelineEventKind.StoredEnergyReleased);
        }

        if (!SourceReading.Verifications(duty.Reading, source).Any(IsSince))
        {
            yield return EventWords.Done(TimelineEventKind.IsolationVerified);
        }

        bool IsSince(OrderedEvent entry) =>
            entry.Place() > added.Place() && (next is null || entry.Place() < next.Start.Place());
    }
}
