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

        foreach (var learned in unit.ShiftsLearned.Where(each => each.Quantity == quantity))
        {
            var stated = unit
                .Sheet.Of(learned.Adjuster)!
                .Disturbs.First(each => each.Quantity == quantity)
                .ShiftPerStep!;
            yield return $"a step of the {Wording.Of(learned.Adjuster)} adjuster is counted as {UncertaintyPrint.Of(learned.PerStep, carried.System)} "
                + $"at most either way, as read before and after steps of this job; the sheet says {Wording.Of(stated.Governing.Value.Abs, carried.System)}";
        }
    }
}
