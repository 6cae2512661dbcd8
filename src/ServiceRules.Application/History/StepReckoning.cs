using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Remedies;

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
                    var (visit, tried) = group.Last();
                    var adjuster = visit.Sheet.Of(tried.Adjuster);
                    var carried = adjuster?.Disturbs.FirstOrDefault(disturbed =>
                        disturbed.Quantity == tried.Quantity
                    );
                    var stated = carried is null ? adjuster?.OneStep : carried.ShiftPerStep?.Governing.Value;
                    var together = LearnedStep.From(trials);
                    var learned =
                        carried is null && stated is { } print ? together?.Proving(print) : together;
                    return new StepOutlook(
                        group.Key.Adjuster,
                        group.Key.Quantity,
                        carried is not null,
                        trials.Length,
                        group.Select(one => one.Visit.Record).Distinct().Count(),
                        learned,
                        stated,
                        (learned, stated) is not ({ } step, { } sheet) ? null
                            : carried is null ? step.Against(sheet)
                            : Within(step, sheet),
                        tried.System
                    );
                }),
        ];

    /// <summary>What is carried along may be anything up to the shift that the sheet allows for, either way.</summary>
    private static StepAnswer Within(LearnedStep step, Length most)
    {
        var known = step.PerStep.AsInterval();
        return known.Lower?.Value > most || known.Upper?.Value < -most
            ? StepAnswer.MovesMore
            : StepAnswer.Agrees;
    }
}
