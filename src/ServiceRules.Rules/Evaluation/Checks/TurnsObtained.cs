using System.Globalization;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Rules.Evaluation.Bench;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// Screws that were turned and moved nothing, or the other way, told by readings before and after. Advice, never a verdict;
/// adjusters that turn in steps have a check of their own.
/// </summary>
internal static class TurnsObtained
{
    public static IEnumerable<string> Notices(MeasuredQuantity quantity, UnitFrame unit)
    {
        if (
            AdjustedQuantity.FinelySetBy(quantity) is not { } kind
            || unit.Sheet.Of(kind) is not { Step: null, Thread: { } thread } adjuster
            || StepInForce.Learned(unit, kind) is not { } learned
        )
        {
            yield break;
        }

        var known = learned.PerStep.AsInterval();
        var last = unit.StepsTried.Last(tried => tried.Adjuster == kind);
        var turned =
            $"{Counted(last.Turned, thread.Parts)} {(last.Trial.Steps > 0 ? "up" : "down")} moved the {Wording.Of(quantity)}";
        if (known.Upper is { } most && most.Value < Length.Zero)
        {
            yield return $"{turned} the other way: see which way the screw turns, and that it was noted so, before turning further";
        }
        else if (known.Contains(Length.Zero) && !(adjuster.OneStep is { } stated && known.Contains(stated)))
        {
            yield return $"{turned} by nothing that the readings show: look for a slipping screw or a seized pivot before turning further";
        }
    }

    private static string Counted(int parts, int perTurn) =>
        string.Create(CultureInfo.InvariantCulture, $"{parts}/{perTurn} of a turn");
}
