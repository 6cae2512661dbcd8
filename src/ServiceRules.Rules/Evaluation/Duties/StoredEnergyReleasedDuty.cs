using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>Stored energy of every source was released or restrained before hands went in.</summary>
internal static class StoredEnergyReleasedDuty
{
    public static CheckOutcome Judge(DutyFrame duty)
    {
        if (SourcesKnown.LackingStored(duty) is { } lacking)
        {
            return lacking;
        }

        var leadUp = LeadUp.ToFirstWork(duty);
        return SourceStep.Judge(
            leadUp,
            [
                .. from source in leadUp.Sources
                where source.Source.Stored
                select SourceStep.Of(
                    leadUp,
                    source.Source,
                    duty.Reading.Of(TimelineEventKind.StoredEnergyReleased)
                        .Where(entry => entry.Event.SpeaksOf(source.Source.Id))
                ),
            ],
            "the stored energy released"
        );
    }
}
