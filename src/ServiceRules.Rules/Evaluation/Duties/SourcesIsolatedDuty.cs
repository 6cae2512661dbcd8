using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>Every source that can be switched off was, at its isolating device, before hands went in.</summary>
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
            [
                .. from source in leadUp.Sources
                where source.HasIsolator
                select SourceStep.Of(
                    leadUp,
                    source.Source,
                    SourceReading.Isolations(duty.Reading, source.Source)
                ),
            ],
            "the isolator turned off"
        );
    }
}
