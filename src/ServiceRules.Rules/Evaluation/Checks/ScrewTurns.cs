using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Rules.Evaluation.Bench;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>A distance as parts of a turn of the screw, by the sheet's thread and the ratio in force.</summary>
internal static class ScrewTurns
{
    /// <summary>None when the sheet states no thread, or nobody knows its ratio yet.</summary>
    public static HeightTurns? For(Length move, UnitFrame unit, AdjusterKind kind) =>
        unit.Sheet.Of(kind)?.Thread is { } thread && Of(unit, kind) is { } screw
            ? screw.TurnsFor(move, thread.Parts)
            : null;

    /// <summary>
    /// What one part of a turn really obtains, where this job's readings and not the sheet say so; none: by the sheet, or
    /// no thread.
    /// </summary>
    public static Length? LearnedPart(UnitFrame unit, AdjusterKind kind) =>
        unit.Sheet.Of(kind)?.Thread is not null && StepInForce.Of(unit, kind) is { IsLearned: true } learned
            ? learned.Step
            : null;

    /// <summary>The screw with the ratio that this job's readings proved, or else the sheet's.</summary>
    private static HeightThread? Of(UnitFrame unit, AdjusterKind kind)
    {
        var thread = unit.Sheet.Of(kind)!.Thread!;
        return StepInForce.Of(unit, kind) switch
        {
            { IsLearned: true } learned => HeightThread.Learned(
                thread.Pitch.Value,
                learned.Step,
                thread.Parts
            ),
            { } => new(thread.Pitch.Value, thread.Ratio!.Value),
            _ => null,
        };
    }
}
