using System.Collections.Immutable;
using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Remedies;

/// <summary>
/// What one step of an adjuster really obtains, learned from readings before and after known steps.
/// <para>
/// Measured trials: the weighted mean Σ(nc/u²)/Σ(n²/u²) over steps n, changes c and their standard uncertainties u
/// (least squares through the origin; derived), its uncertainty by JCGM 100:2008, 5.1.2 and 5.2.2, over the readings behind
/// the changes, with two trials or more widened by the Birge ratio where they scatter by more than it explains. When any trial is an interval, all count as intervals
/// and the step is what every one of them allows.
/// </para>
/// </summary>
public sealed record LearnedStep
{
    private LearnedStep(ImmutableArray<StepTrial> trials, Knowledge perStep)
    {
        Trials = trials;
        PerStep = perStep;
    }

    /// <summary>The trials it was learned from.</summary>
    public ImmutableArray<StepTrial> Trials { get; }

    /// <summary>The movement of one step at its own adjuster; positive opens or raises.</summary>
    public Knowledge PerStep { get; }

    /// <summary>The measured step, or the middle of the interval; none where the interval is open on a side.</summary>
    public Length? Best =>
        PerStep switch
        {
            MeasuredValue measured => measured.Value,
            LengthInterval { Lower: { } lower, Upper: { } upper } => (lower.Value + upper.Value) * 0.5m,
            _ => null,
        };

    /// <summary>Pools trials, in any order; none when there are none, nothing is bounded, or they contradict one another.</summary>
    public static LearnedStep? From(ImmutableArray<StepTrial> trials)
    {
        if (trials.IsEmpty)
        {
            return null;
        }

        Knowledge? perStep = trials.All(trial => trial.Change is MeasuredValue)
            ? Measured(trials)
            : Common(trials);
        return perStep is null or LengthInterval { Lower: null, Upper: null } ? null : new(trials, perStep);
    }

    /// <summary>
    /// Whether some two trials exclude one another, each told alone: what both could have moved has no common step. A mean of
    /// them would be the step of neither.
    /// </summary>
    public static bool Differ(ImmutableArray<StepTrial> trials) => !trials.IsEmpty && Common(trials) is null;

    /// <summary>
    /// Whether a step as stated can be true: proven otherwise when it differs by more than U, or lies outside the
    /// interval. Equality with U is agreement.
    /// </summary>
    public StepAnswer Against(Length stated)
    {
        var known = PerStep.AsInterval();
        return known.Contains(stated) ? StepAnswer.Agrees
            : known.Lower is { } lower && stated <= lower.Value ? StepAnswer.MovesMore
            : StepAnswer.MovesLess;
    }

    private static MeasuredValue Measured(ImmutableArray<StepTrial> trials)
    {
        ImmutableArray<MeasuredValue> changes = [.. trials.Select(trial => (MeasuredValue)trial.Change)];
        // The worse known of two trials counts less; what is exactly known is taken to the quantum of uncertainties.
        var weights = trials
            .Zip(
                changes,
                (trial, change) =>
                {
                    var u = Length.Max(change.Uncertainty.Value, StandardUncertainty.Quantum).Millimetres;
                    return trial.Steps / (u * u);
                }
            )
            .ToImmutableArray();
        var norm = weights.Zip(trials, (weight, trial) => weight * trial.Steps).Sum();
        ImmutableArray<decimal> shares = [.. weights.Select(weight => weight / norm)];
        var step = LinearForm.Of(shares).Estimate(changes);
        return OverReadings(trials, shares, BirgeRatio(trials, changes, step)) with { Value = step };
    }

    /// <summary>
    /// The same mean as a sum over readings: one that ends a trial and begins the next enters once, with both its weights.
    /// </summary>
    private static MeasuredValue OverReadings(
        ImmutableArray<StepTrial> trials,
        ImmutableArray<decimal> shares,
        double misfit
    )
    {
        var weights = trials
            .Zip(shares)
            .SelectMany(each =>
                new[] { (each.First.After, Weight: each.Second), (each.First.Before, Weight: -each.Second) }
            )
            .GroupBy(each => each.Item1, each => each.Weight)
            .ToList();
        return LinearForm
            .Fitted(weights.Select(reading => reading.Sum()))
            .Apply(
                [.. weights.Select(reading => (MeasuredValue)reading.Key.Knowledge)],
                [.. weights.Select(reading => reading.Key.Shared ?? SharedError.None)],
                Misfit.By(misfit)
            );
    }

    /// <summary>Birge ratio √(Σ((c - n·d)/u)²/(m - 1)), at least 1 (R. T. Birge, Physical Review 40, 1932).</summary>
    private static double BirgeRatio(
        ImmutableArray<StepTrial> trials,
        ImmutableArray<MeasuredValue> changes,
        Length step
    )
    {
        if (changes.Length < 2 || changes.Any(change => change.Uncertainty == StandardUncertainty.Zero))
        {
            return 1;
        }

        var sum = trials
            .Zip(
                changes,
                (trial, change) =>
                    (double)(
                        (change.Value - (step * trial.Steps)).Millimetres
                        / change.Uncertainty.Value.Millimetres
                    )
            )
            .Sum(ratio => ratio * ratio);
        return Math.Max(1, Math.Sqrt(sum / (changes.Length - 1)));
    }

    private static LengthInterval? Common(ImmutableArray<StepTrial> trials)
    {
        var known = LengthInterval.Unbounded;
        foreach (var trial in trials)
        {
            var alone = LinearForm.Of([1 / trial.Steps]).Apply([trial.Change.AsInterval()]);
            if (known.Meet(alone) is not IntervalMeeting.Overlap both)
            {
                return null;
            }

            known = both.Interval;
        }

        return known;
    }
}
