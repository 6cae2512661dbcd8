using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>Told beside the verdict: the order in force states more than the limit sheet allows about a target.</summary>
internal static class OrderedWidth
{
    public static IEnumerable<string> Notices(Check.LimitOnQuantity check, UnitFrame unit)
    {
        if (
            check.Against is LimitSource.SettingOrder
            && unit.Targets.FirstOrDefault(one => one.Quantity == check.Quantity)?.Tolerance is { } ordered
            && unit.Sheet.Of(check.Quantity) is { } limit
            && limit.IsTighterThan(ordered)
        )
        {
            yield return $"the setting order states {ordered} either way, more than the {limit.ToleranceAboutTarget} of the limit sheet, which counts: an order may tighten only";
        }
    }
}
