using System.Collections.Immutable;
using ServiceRules.Domain.Site;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// Stored energy of every source was released or restrained before hands went in, and was not read above its limit since.
/// Units on the ground or held up, a reel at rest or wedged are so without a word of release.
/// </summary>
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
            [.. from source in leadUp.Sources where source.Source.Stored select Step(leadUp, source.Source)],
            "the stored energy released"
        );
    }

    private static SourceStep Step(LeadUp leadUp, EnergySource source)
    {
        var releases = SourceReading.Releases(leadUp.Duty.Reading, source).ToImmutableArray();
        var step = SourceStep.Of(leadUp, source, releases.Where(entry => !SaidOtherwise.By(entry.Event)));
        var denied = releases.LastOrDefault(entry => leadUp.Contains(entry));
        if (step.Shown.IsEmpty && denied is not null)
        {
            return new(
                source,
                [],
                null,
                $" ({leadUp.Duty.Words.Time(denied)}: {SaidOtherwise.Told(denied)})",
                [denied],
                IsUntold: true,
                "Release it before hands go in, and enter what came of it."
            );
        }

        return RecheckReadings.LastAbove(leadUp, source) is { } high
            ? step with
            {
                Shown = [.. step.Shown.Where(entry => entry.Place() > high.Place())],
                Late = null,
                Why = $" ({leadUp.Duty.Words.Time(high)}: {RecheckReadings.Above(source, high)})",
                Instead = [high],
            }
            : step;
    }
}
