using System.Collections.Immutable;
using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Remedies;

/// <summary>
/// What one step of an adjuster really obtains, learned from readings before and after known steps.
/// <para>
/// Measured trials: least squares through the origin, d = Σnc/Σn² over steps n and changes c (derived), as the line over the
/// width: weights that followed the readings' uncertainties would let a worse known one leave the step better known. Its
/// uncertainty by JCGM 100:2008, 5.1.2 and 5.2.2, over the readings behind the changes; with two trials or more the part of each
/// reading that is its own counts as no less than s/√2, s = √(Σ(c - nd)²/(m - 1)) the scatter of the m changes, of which each
/// rests on two readings. When any trial is an interval, all count as intervals and the step is what every one of them allows.
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
    public Length? Best => PerStep.Middle;

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
    /// interval, by what <see cref="Proving"/> names. Equality with U is agreement.
    /// </summary>
    public StepAnswer Against(Length stated) => Answer(Proving(stated).PerStep, stated);

    /// <summary>
    /// What proves a stated step to be another: all trials together, or else those of one gauge alone, since what a coarse gauge
    /// tells besides takes nothing away from what a fine one proved; of several gauges the one with the least U. This, where nothing proves it.
    /// </summary>
    /// <param name="stated">The movement of one step as stated.</param>
    public LearnedStep Proving(Length stated) =>
        PerStep is LengthInterval || Answer(PerStep, stated) is not StepAnswer.Agrees
            ? this
            : Trials
                .GroupBy(trial => (Cause(trial.Before), Cause(trial.After)))
                .OrderBy(gauge => gauge.Key.Item1, StringComparer.Ordinal)
                .ThenBy(gauge => gauge.Key.Item2, StringComparer.Ordinal)
                .Select(gauge => From([.. gauge])!)
                // Of several that do, the best known one is counted with, whatever its gauge is called.
                .OrderBy(alone => alone.PerStep.AsInterval().Width)
                .FirstOrDefault(alone => Answer(alone.PerStep, stated) is not StepAnswer.Agrees, this);

    private static string Cause(TrialReading reading) => (reading.Shared ?? SharedError.None).Cause;

    private static StepAnswer Answer(Knowledge perStep, Length stated)
    {
        var known = perStep.AsInterval();
        return known.Contains(stated) ? StepAnswer.Agrees
            : known.Lower is { } lower && stated <= lower.Value ? StepAnswer.MovesMore
            : StepAnswer.MovesLess;
    }

    private static MeasuredValue Measured(ImmutableArray<StepTrial> trials)
    {
        ImmutableArray<MeasuredValue> changes = [.. trials.Select(trial => (MeasuredValue)trial.Change)];
        var norm = trials.Sum(trial => trial.Steps * trial.Steps);
        ImmutableArray<decimal> shares = [.. trials.Select(trial => trial.Steps / norm)];
        var step = LinearForm.Of(shares).Estimate(changes);
        return OverReadings(trials, shares, Scatter(trials, changes, step)) with { Value = step };
    }

    /// <summary>
    /// The same mean as a sum over readings: one that ends a trial and begins the next enters once, with both its weights.
    /// </summary>
    private static MeasuredValue OverReadings(
        ImmutableArray<StepTrial> trials,
        ImmutableArray<decimal> shares,
        Misfit misfit
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
                misfit
            );
    }

    /// <summary>How far the changes depart from so many equal steps, as the part of one of the two readings behind each.</summary>
    private static Misfit Scatter(
        ImmutableArray<StepTrial> trials,
        ImmutableArray<MeasuredValue> changes,
        Length step
    )
    {
        if (trials.Length < 2)
        {
            return Misfit.None;
        }

        var sum = trials
            .Zip(changes, (trial, change) => (double)(change.Value - (step * trial.Steps)).Millimetres)
            .Sum(departure => departure * departure);
        return new(Math.Sqrt(sum / (2 * (trials.Length - 1))));
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
