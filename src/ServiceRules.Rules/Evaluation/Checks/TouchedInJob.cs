using ServiceRules.Domain.Records;
using ServiceRules.Rules.Evaluation.Bench;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>Whether anything done to a unit in this job moved a quantity, by the limit sheet.</summary>
internal static class TouchedInJob
{
    public static bool Is(MeasuredQuantity quantity, UnitFrame unit)
    {
        var done = new Disturbances(unit.Sheet);
        foreach (var entry in unit.Work.Entries)
        {
            done.Add(entry);
        }

        return !done.On(quantity).IsNone;
    }
}
