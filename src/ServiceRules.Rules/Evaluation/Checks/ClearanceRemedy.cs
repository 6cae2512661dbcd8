using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Site;
using ServiceRules.Rules.Evaluation.Bench;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>What to turn to bring the clearance in.</summary>
internal static class ClearanceRemedy
{
    /// <summary>
    /// From contact of unknown depth no count is invented: open until it just frees at both ends, then by the fewest
    /// steps that bring the gap, which is then between nothing and one step, between the feelers that the sheet teaches;
    /// where it teaches none, inside the limits.
    /// </summary>
    public static Remedy FromContact(UnitFrame unit)
    {
        var limit = unit.Sheet.Of(MeasuredQuantity.Clearance);
        var gap = limit?.Schools.FirstOrDefault(each => each.School is ContactSchool.AirGap);
        var zone = gap is { Passes: { } passes, Stops: { } stops }
            ? PrintedZone.Of(passes, stops, null)
            : PrintedZone.Of(limit?.Lower, limit?.Upper, null);
        var step = StepInForce.Of(unit, AdjusterKind.Clearance)?.Step;
        if (zone is null || step is not { } one || one <= Length.Zero)
        {
            return new Remedy.Act("open until it just frees at both ends, then set the gap by feeler");
        }

        var then = ContactRelease.For(one, zone.Common).ThenOpen;
        return new Remedy.OpenUntilFree(AdjusterKind.Clearance, then, [.. ReadAgain.After(unit, [Opened])]);
    }

    /// <summary>By how many steps it will be opened nobody knows beforehand.</summary>
    private static Adjustment Opened { get; } =
        new()
        {
            Adjuster = AdjusterKind.Clearance,
            Side = Side.Both,
            Direction = AdjustDirection.Open,
            Amount = new AdjustmentAmount.NotStated(),
        };
}
