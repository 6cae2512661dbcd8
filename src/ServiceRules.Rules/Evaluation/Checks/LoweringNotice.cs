using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// Lowering the height by more than a third in one go scalps: from the height as found to the target, the heights to
/// cut at in between. Told where the height is there to be changed: at a check the turf stands at the height of the other
/// units already. Derived; told, never judged.
/// </summary>
internal static class LoweringNotice
{
    public static IEnumerable<string> For(Check.LimitOnQuantity check, UnitFrame unit, PrintedZone zone)
    {
        if (
            check is not { Quantity: MeasuredQuantity.HeightOfCut, Against: LimitSource.SettingOrder }
            || !unit.Tasks.Contains(ServiceTask.HeightChange)
            || zone.Target is not { } target
            || target <= Length.Zero
            || Found(unit) is not var (found, system)
            || found <= Length.Zero
        )
        {
            return [];
        }

        var heights = StepDown.Heights(found, target, Grid(system));
        return heights.Length < 2
            ? []
            :
            [
                $"found at {Wording.Of(found, system)}: down to {Wording.Of(target, system)} {ToldThoughMet.TakesOffTooMuch}; "
                    + $"cut at {Wording.Listed([.. heights.Select(height => Wording.Of(height, system))])}, a third at most each time (derived)",
            ];
    }

    /// <summary>The highest reading as found: there the most is taken off.</summary>
    private static (Length Height, UnitSystem System)? Found(UnitFrame unit)
    {
        var found = (unit.Of(MeasuredQuantity.HeightOfCut)?.Found ?? [])
            .Where(place => place.Knowledge is not null)
            .Select(place => (Height: place.Knowledge!.Middle, place.System))
            .Where(place => place.Height is not null)
            .OrderByDescending(place => place.Height)
            .ToList();
        return found.Count == 0 ? null : (found[0].Height!.Value, found[0].System);
    }

    /// <summary>A height to cut at: to 0.1 mm or 0.01 in, which is as near as it matters.</summary>
    private static Length Grid(UnitSystem system) =>
        system is UnitSystem.Inch ? Length.FromInches(0.01m) : Length.FromMillimetres(0.1m);
}
