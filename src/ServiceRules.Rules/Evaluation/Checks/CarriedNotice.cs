using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Records;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>What a carried reading was carried with, where this job's own readings told the shift better than the sheet.</summary>
internal static class CarriedNotice
{
    public static IEnumerable<string> Notices(MeasuredQuantity quantity, UnitFrame unit, UnitPlaces places)
    {
        if (places.Usable.FirstOrDefault(place => place.State is KnownState.Carried) is not { } carried)
        {
            yield break;
        }

        var told = unit.ShiftsLearned.Where(each => each.Quantity == quantity);
        foreach (var alike in told.GroupBy(each => (each.Adjuster, each.PerStep)))
        {
            var (adjuster, perStep) = alike.Key;
            var stated = unit
                .Sheet.Of(adjuster)!
                .Disturbs.First(each => each.Quantity == quantity)
                .ShiftPerStep!;
            var side =
                alike.Count() > 1 ? "either side"
                : alike.First().Side is Side.Left ? "the left"
                : "the right";
            yield return $"a step of the {Wording.Of(adjuster)} adjuster on {side} is counted as {UncertaintyPrint.Of(perStep, carried.System)} "
                + $"at most either way, as read before and after steps of this job; the sheet says {Wording.Of(stated.Governing.Value.Abs, carried.System)}";
        }
    }
}
