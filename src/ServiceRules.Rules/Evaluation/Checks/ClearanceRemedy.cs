using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>What to turn to bring the clearance in.</summary>
internal static class ClearanceRemedy
{
    /// <summary>
    /// From contact of unknown depth no count is invented: open until it just frees at both ends, then by the fewest
    /// steps that bring the gap, which is then between nothing and one step, inside both prints of the limit.
    /// </summary>
    public static Remedy FromContact(UnitFrame unit)
    {
        var limit = unit.Sheet.Of(MeasuredQuantity.Clearance);
        var zone = PrintedZone.Of(limit?.Lower, limit?.Upper, limit?.Target?.Governing.Value);
        var step = unit.Sheet.Of(AdjusterKind.Clearance)?.Step?.Governing.Value;
        if (zone is null || step is not { } one || one <= Length.Zero)
        {
            return new Remedy.Act("open until it just frees at both ends, then set the gap by feeler");
        }

        var then = ContactRelease.For(one, zone.Common).ThenOpen;
        return new Remedy.OpenUntilFree(
            AdjusterKind.Clearance,
            then,
            [.. ReadAgain.After(unit, [Opened(then + 1)])]
        );
    }

    private static Adjustment Opened(int steps) =>
        new()
        {
            Adjuster = AdjusterKind.Clearance,
            Side = Side.Both,
            Direction = AdjustDirection.Open,
            Amount = new AdjustmentAmount.Steps(steps),
        };
}
