using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Bench;

/// <summary>
/// The step that remedies are counted with: the sheet's, or the one that this job's own readings proved to be another.
/// </summary>
/// <param name="Step">Movement of one step at its own adjuster, above zero.</param>
/// <param name="IsLearned">Whether it was learned, and not taken from the sheet.</param>
/// <param name="Least">The least that is credible of a step: the least that was learned, or the sheet's; not below zero.</param>
/// <param name="Most">The most that is credible of a step: the most that was learned, or the sheet's.</param>
/// <param name="Doubt">
/// How far a step may be from <paramref name="Step"/>: half of what was learned leaves, or half a unit of the last digit that the
/// sheet prints.
/// </param>
internal readonly record struct StepInForce(
    Length Step,
    bool IsLearned,
    Length Least,
    Length Most,
    Length Doubt
)
{
    // A step proven to obtain less than this share of the sheet's slips rather than moves: nothing is counted with it
    // (common practice, no source).
    private const decimal LeastShare = 0.25m;

    // To where means of readings are: coarser, and so many steps would land elsewhere than the step that is told says.
    private const int Decimals = 7;

    /// <summary>
    /// None when neither the sheet nor the readings tell a step above zero, or when the adjuster has to be repaired first.
    /// </summary>
    public static StepInForce? Of(UnitFrame unit, AdjusterKind kind)
    {
        var stated = unit.Sheet.Of(kind)?.OneStep;
        var learned = Learned(unit, kind);
        if (IsAmiss(stated, learned) || IsContested(unit, kind))
        {
            return null;
        }

        if (
            learned?.Best is { } best
            && Math.Round(best.Millimetres, Decimals) is > 0 and var rounded
            && (stated is not { } told || learned.Against(told) is not StepAnswer.Agrees)
        )
        {
            var step = Length.FromMillimetres(rounded);
            Length[] credible = [step, .. Ends(learned.PerStep)];
            return new(
                step,
                true,
                Length.Max(Length.Zero, credible.Min()),
                credible.Max(),
                Length.Max(credible.Max() - step, step - credible.Min())
            );
        }

        return stated is { } sheet && sheet > Length.Zero
            ? new(sheet, false, sheet, sheet, DigitsOf(unit.Sheet.Of(kind)!))
            : null;
    }

    /// <summary>How far the sheet's step may lie from its print; where two prints agree, from the finer one.</summary>
    private static Length DigitsOf(Adjuster adjuster) =>
        adjuster.Step is not { } print ? Length.Zero
        : print is { Alternate: { } other, Agreement: PrintAgreement.Agrees }
            ? Length.Min(print.Governing.RoundingHalfWidth, other.RoundingHalfWidth)
        : print.Governing.RoundingHalfWidth;

    /// <summary>
    /// Whether this job's readings prove that the adjuster does not do what it should: its steps go the other way, or may
    /// obtain nothing, or next to nothing, or more than anybody can tell, or one time more than the other time allows. It is
    /// repaired before it is turned by a count.
    /// </summary>
    public static bool IsBroken(UnitFrame unit, AdjusterKind kind) =>
        IsContested(unit, kind)
        || IsAmiss(unit.Sheet.Of(kind)?.OneStep, Learned(unit, kind))
        || IsAmiss(DistanceTried.AsNoted, LearnedByDistance(unit, kind))
        || LastByPlace(unit.DistancesTried.Where(tried => tried.Adjuster == kind))
            .Any(tried => IsAmiss(DistanceTried.AsNoted, LearnedStep.From([tried.Trial])));

    /// <summary>The last of them at each place.</summary>
    public static IEnumerable<DistanceTried> LastByPlace(IEnumerable<DistanceTried> tried) =>
        tried.GroupBy(each => each.Station).Select(place => place.Last());

    /// <summary>
    /// Whether what steps of this job moved contradicts itself: one time more than the other time allows. Nobody knows then what
    /// the next one obtains.
    /// </summary>
    public static bool IsContested(UnitFrame unit, AdjusterKind kind) =>
        Learned(unit, kind) is null
        && Tried(unit, kind).Any(trial => trial.Change.AsInterval() is not { Lower: null, Upper: null });

    private static bool IsAmiss(Length? stated, LearnedStep? learned)
    {
        if (learned is null)
        {
            return false;
        }

        var (least, most) = (
            learned.PerStep.AsInterval().Lower?.Value,
            learned.PerStep.AsInterval().Upper?.Value
        );
        return most < Length.Zero
            || (
                stated is { } step
                && learned.Against(step) switch
                {
                    StepAnswer.MovesLess => !(least > Length.Zero) || most < step * LeastShare,
                    StepAnswer.MovesMore => most is null,
                    _ => false,
                }
            );
    }

    private static IEnumerable<Length> Ends(Knowledge? perStep) =>
        perStep?.AsInterval() is { } known
            ? new[] { known.Lower?.Value, known.Upper?.Value }.OfType<Length>()
            : [];

    /// <summary>What this job's readings tell of a step; none when they tell nothing or contradict one another.</summary>
    public static LearnedStep? Learned(UnitFrame unit, AdjusterKind kind) =>
        LearnedStep.From([.. Tried(unit, kind)]);

    /// <summary>
    /// What this job's readings tell of a noted millimetre of an adjuster; none when they tell nothing or contradict one
    /// another.
    /// </summary>
    public static LearnedStep? LearnedByDistance(UnitFrame unit, AdjusterKind kind) =>
        LearnedStep.From([
            .. unit.DistancesTried.Where(tried => tried.Adjuster == kind).Select(tried => tried.Trial),
        ]);

    private static IEnumerable<StepTrial> Tried(UnitFrame unit, AdjusterKind kind) =>
        unit.StepsTried.Where(tried => tried.Adjuster == kind).Select(tried => tried.Trial);
}
