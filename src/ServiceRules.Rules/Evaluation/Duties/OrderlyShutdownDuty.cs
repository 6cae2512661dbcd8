using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>The machine was shut down in an orderly way before the first isolating device was operated.</summary>
internal static class OrderlyShutdownDuty
{
    public static CheckOutcome Judge(DutyFrame duty)
    {
        if (SourcesKnown.LackingIsolated(duty) is { } lacking)
        {
            return lacking;
        }

        var leadUp = LeadUp.ToFirstWork(duty);
        var all = duty.Reading.Of(TimelineEventKind.MachineShutDown);
        var down = leadUp.Of(TimelineEventKind.MachineShutDown).FirstOrDefault();
        var what = EventWords.Done(TimelineEventKind.MachineShutDown);
        if (down is null)
        {
            return TimelineOutcome.OfFaults([LeadUpOutcome.Missing(leadUp, what, leadUp.FirstAfter(all))]);
        }

        var isolated = leadUp
            .Of(TimelineEventKind.IsolatorOperated, TimelineEventKind.PlugRemoved)
            .FirstOrDefault(entry => entry.Event.Position != IsolatorPosition.On);
        return isolated is not null && isolated.Moment < down.Moment
            ? TimelineOutcome.Of(
                Verdict.NotMet,
                FindingReason.WrongOrder,
                $"The record shows {what} at {duty.Words.Time(down)}, after it shows {EventWords.Done(isolated.Event.Kind)} at {duty.Words.Time(isolated)}.",
                new[] { down, isolated }.Evidence(),
                "Stop the engine or motor in an orderly way first; then switch off at the isolating devices."
            )
            : LeadUpOutcome.Of(leadUp, [], $"{what} {duty.Words.AtBy(down)}", [down]);
    }
}
