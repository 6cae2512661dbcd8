using System.Collections.Immutable;
using ServiceRules.Rules.Evaluation.Bench;

namespace ServiceRules.Rules.Evaluation;

/// <summary>
/// What a bench log tells of quantities that the steps of another adjuster carry along: height read, clearance turned by
/// known steps, height read again. One job seldom tells enough of it; many jobs together do.
/// </summary>
public static class StepsCarried
{
    /// <summary>Every trial that the log of a unit holds.</summary>
    /// <param name="unit">The unit.</param>
    /// <param name="frame">Its job.</param>
    public static ImmutableArray<StepsTried> Of(UnitFrame unit, JobFrame frame)
    {
        ArgumentNullException.ThrowIfNull(unit);
        ArgumentNullException.ThrowIfNull(frame);
        return new StepTrials(unit.Work, unit.Sheet, frame.Days).Carried(
            BenchLog.Of(unit.Work, unit.Index, unit.Sheet, frame.Record)
        );
    }
}
