using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Remedies;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.History;

/// <summary>Pools the trials of each adjuster of a unit over its jobs.</summary>
internal static class StepReckoning
{
    public static ImmutableArray<StepOutlook> Of(IReadOnlyList<UnitVisit> visits) =>
        [
            .. visits
                .SelectMany(visit => visit.Tried.Select(tried => (Visit: visit, Tried: tried)))
                .GroupBy(one => (one.Tried.Adjuster, one.Tried.Quantity))
                .OrderBy(group => group.Key)
                .Select(group =>
                {
                    ImmutableArray<StepTrial> trials = [.. group.Select(one => one.Tried.Trial)];
                    var learned = LearnedStep.From(trials);
                    var stated = Stated(group.Last().Visit.Sheet, group.Last().Tried);
                    return new StepOutlook(
                        group.Key.Adjuster,
                        group.Key.Quantity,
                        trials.Length,
                        group.Select(one => one.Visit.Record).Distinct().Count(),
                        learned,
                        stated,
                        learned is not null && stated is { } step ? learned.Against(step) : null,
                        group.Last().Tried.System
                    );
                }),
        ];

    /// <summary>The step of the adjuster's own quantity, or what each step carries along of another.</summary>
    private static Length? Stated(LimitSheet sheet, StepsTried tried)
    {
        var adjuster = sheet.Of(tried.Adjuster);
        var carried = adjuster?.Disturbs.FirstOrDefault(disturbed => disturbed.Quantity == tried.Quantity);
        return (carried is null ? adjuster?.Step : carried.ShiftPerStep)?.Governing.Value;
    }
}
