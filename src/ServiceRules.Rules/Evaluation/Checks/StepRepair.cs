using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Rules.Evaluation.Bench;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// What comes before any count where this job's readings prove that the adjuster does not do what it should: a count would be
/// of steps that nobody knows, and one that grips again may close into contact.
/// </summary>
internal static class StepRepair
{
    /// <summary>None where nothing proves it.</summary>
    public static Remedy.Act? For(UnitFrame unit, AdjusterKind kind) =>
        StepInForce.IsContested(unit, kind)
            ? new(
                "one time the steps moved it by more than the other time allows, so that no count of steps is to be trusted: look for lost motion in the adjuster, a loose pivot or a reading gone wrong; then read it, turn some steps one way and read it again at the same places"
            )
        : NotedDistance.IsContradicted(unit, kind) && !StepInForce.IsAmissByDistance(unit, kind)
            ? new(
                "what was noted as turned is not what it moved by the readings before and after, so that nothing is to be counted on it: "
                    + "look for a slipping screw, a loose or a seized pivot, and see that the distance was noted right; then "
                    + (
                        unit.Sheet.Of(kind)?.Step is null
                            ? "turn a little one way"
                            : "turn one or two counted steps one way"
                    )
                    + " and read it again at the same places"
            )
        : StepInForce.IsBroken(unit, kind)
            ? new(
                "what was turned did not move it as it should: see which way the adjuster turns and that it was noted so, look for a loose pivot, a worn bearing or a slipping adjuster, and repair that first; then read again before turning further"
            )
        : null;
}
