using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;

namespace ServiceRules.Rules.Evaluation.Bench;

/// <summary>
/// The step that remedies are counted with: the sheet's, or the one that this job's own readings proved to be another.
/// </summary>
/// <param name="Step">Movement of one step at its own adjuster, above zero.</param>
/// <param name="IsLearned">Whether it was learned, and not taken from the sheet.</param>
internal readonly record struct StepInForce(Length Step, bool IsLearned)
{
    // A learned step is no better than its readings: a ten-thousandth of a millimetre is plenty to count with.
    private const int Decimals = 4;

    /// <summary>None when neither the sheet nor the readings tell a step above zero.</summary>
    public static StepInForce? Of(UnitFrame unit, AdjusterKind kind)
    {
        var stated = unit.Sheet.Of(kind)?.OneStep;
        var learned = Learned(unit, kind);
        if (
            learned?.Best is { } best
            && Math.Round(best.Millimetres, Decimals) is > 0 and var rounded
            && (stated is not { } told || learned.Against(told) is not StepAnswer.Agrees)
        )
        {
            return new(Length.FromMillimetres(rounded), true);
        }

        return stated is { } step && step > Length.Zero ? new(step, false) : null;
    }

    /// <summary>What this job's readings tell of a step; none when they tell nothing or contradict one another.</summary>
    public static LearnedStep? Learned(UnitFrame unit, AdjusterKind kind) =>
        LearnedStep.From([
            .. unit.StepsTried.Where(tried => tried.Adjuster == kind).Select(tried => tried.Trial),
        ]);
}
