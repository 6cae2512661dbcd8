using System.Collections.Immutable;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>Every source that can be switched off was, at its isolating device, and was still off when hands went in.</summary>
internal static class SourcesIsolatedDuty
{
    public static CheckOutcome Judge(DutyFrame duty)
    {
        if (SourcesKnown.LackingIsolated(duty) is { } lacking)
        {
            return lacking;
        }

        var leadUp = LeadUp.ToFirstWork(duty);
        return SourceStep.Judge(
            leadUp,
            [.. from source in leadUp.Sources where source.HasIsolator select Step(leadUp, source.Source)],
            "the isolator turned off"
        );
    }

    private static SourceStep Step(LeadUp leadUp, EnergySource source)
    {
        var reading = leadUp.Duty.Reading;
        var off = SourceReading.Isolations(reading, source).ToImmutableArray();
        var on = SourceReading.PutOn(reading, source).LastOrDefault(leadUp.Contains);
        // What is denied last is not shown by what stands before it.
        if (
            off.LastOrDefault(leadUp.Contains) is { } last
            && SaidOtherwise.By(last.Event)
            && !(on?.Place() > last.Place())
        )
        {
            return new(
                source,
                [],
                null,
                $" ({leadUp.Duty.Words.Time(last)}: {SaidOtherwise.Told(last)})",
                [last],
                IsUntold: true,
                "Turn it off, see that it is off, and enter what came of it, before hands go in."
            );
        }

        var step = SourceStep.Of(leadUp, source, off.Where(entry => !SaidOtherwise.By(entry.Event)));
        if (on is not null && step.Shown.IsEmpty && IsEnteredClosed(reading, on))
        {
            return step with
            {
                Late = null,
                Why =
                    $" (entered as closed at {leadUp.Duty.Words.Time(on)}: a closed isolator of electricity is live)",
                Instead = [on],
            };
        }

        return
            on is null
            || (leadUp.Work is null && !leadUp.CanStillBeDone)
            || step.Shown.IsEmpty
            || step.Shown[^1].Place() > on.Place()
            ? step
            : step with
            {
                Shown = [],
                Late = null,
                Why =
                    $" and left off (turned off at {leadUp.Duty.Words.Time(step.Shown[^1])}, {Again(on)} at {leadUp.Duty.Words.Time(on)})",
                Instead = [step.Shown[^1], on],
            };
    }

    private static bool IsEnteredClosed(TimelineReading reading, OrderedEvent entry) =>
        reading.Frame.Record.Timeline[entry.Index].Position == IsolatorPosition.Closed;

    private static string Again(OrderedEvent entry) =>
        entry.Event.Kind == TimelineEventKind.SourceAdded ? "plugged in again" : "turned on again";
}
