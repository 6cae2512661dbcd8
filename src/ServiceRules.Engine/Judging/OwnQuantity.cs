using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Rules.Evaluation.Bench;
using ServiceRules.Rules.Model;

namespace ServiceRules.Engine.Judging;

/// <summary>What setting a quantity upsets on a kind of unit.</summary>
internal static class OwnQuantity
{
    /// <summary>
    /// Quantities that turning this adjuster upsets on the sheet's kind of unit, directly or through another, in one
    /// direction only: where two upset one another neither can be settled first.
    /// </summary>
    public static ImmutableArray<MeasuredQuantity> Upsets(LimitSheet sheet, AdjusterKind adjuster)
    {
        var own = AdjustedQuantity.SetBy(adjuster);
        return
        [
            .. Reached(sheet, adjuster)
                .Where(upset =>
                    upset != own
                    && (
                        AdjustedQuantity.FinelySetBy(upset) is not { } back
                        || !Reached(sheet, back).Contains(own)
                    )
                )
                .Order(),
        ];
    }

    private static HashSet<MeasuredQuantity> Reached(LimitSheet sheet, AdjusterKind from)
    {
        var reached = new HashSet<MeasuredQuantity>();
        var open = new Queue<AdjusterKind>([from]);
        while (open.TryDequeue(out var next))
        {
            foreach (
                var disturbed in (sheet.Of(next)?.Disturbs ?? [])
                    .Select(disturbance => disturbance.Quantity)
                    .Where(reached.Add)
            )
            {
                if (AdjustedQuantity.FinelySetBy(disturbed) is { } adjuster)
                {
                    open.Enqueue(adjuster);
                }
            }
        }

        return reached;
    }
}
