using System.Collections.Immutable;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Geometry;

/// <summary>
/// A value that is a weighted sum Σwᵢgᵢ of readings, such as a fitted line at a station, its tilt, or the
/// difference of two such values. One form serves both kinds of knowledge: measured values propagate
/// their uncertainties (JCGM 100:2008, 5.1.2), intervals propagate their ends.
/// </summary>
internal sealed class LinearForm
{
    private readonly ImmutableArray<decimal> _weights;

    private readonly bool _isFitted;

    private LinearForm(IEnumerable<decimal> weights, bool isFitted)
    {
        _weights = [.. weights.Select(Rounding.Factor)];
        _isFitted = isFitted;
    }

    /// <summary>One reading as it stands.</summary>
    public static LinearForm Single(int index, int count) =>
        new(Enumerable.Range(0, count).Select(i => i == index ? 1m : 0m), isFitted: false);

    /// <summary>A weighted sum that follows from the readings without a model of the shape.</summary>
    public static LinearForm Of(IEnumerable<decimal> weights) => new(weights, isFitted: false);

    /// <summary>A value of a fitted line, which is only as good as the line.</summary>
    public static LinearForm Fitted(IEnumerable<decimal> weights) => new(weights, isFitted: true);

    public LinearForm Minus(LinearForm other) =>
        new(_weights.Zip(other._weights, (a, b) => a - b), _isFitted || other._isFitted);

    public LinearForm Plus(LinearForm other) =>
        new(_weights.Zip(other._weights, (a, b) => a + b), _isFitted || other._isFitted);

    /// <summary>The best estimate for measured readings.</summary>
    public Length Estimate(ImmutableArray<MeasuredValue> readings) =>
        Rounding.ToLength(_weights.Zip(readings, (w, r) => w * r.Value.Millimetres).Sum());

    /// <summary>
    /// The value with its uncertainty. What readings of one cause share enters with the sum of their weights: fully for a
    /// value, not at all for a difference of two readings of one gauge.
    /// </summary>
    /// <param name="readings">The readings, in the order of the weights.</param>
    /// <param name="shared">What each shares with others of its cause.</param>
    /// <param name="misfit">How what rests on a fitted line widens the independent part of each reading.</param>
    public MeasuredValue Apply(
        ImmutableArray<MeasuredValue> readings,
        ImmutableArray<SharedError> shared,
        Misfit misfit
    )
    {
        var each = _weights
            .Zip(
                readings,
                readings.Zip(shared, (reading, error) => reading.Errors.AreAllKnown ? error.AsTold : error)
            )
            .Where(reading => reading.First != 0)
            .ToList();
        var common = each.GroupBy(reading => reading.Third.Cause, StringComparer.Ordinal)
            .Select(alike => InCommon([.. alike.Select(reading => (reading.First, reading.Third))]));
        var own = each.GroupBy(reading => reading.Third.Cause, StringComparer.Ordinal)
            .Select(alike =>
                IndependentErrors.OfOneOrigin(
                    alike.Select(reading =>
                        (_isFitted ? misfit : Misfit.None).Widen(
                            reading.Third.RestOf(reading.Second),
                            Math.Abs((double)reading.First)
                        )
                    )
                )
            );
        return MeasuredValue.With(Estimate(readings), IndependentErrors.Together([.. common, .. own]));
    }

    /// <summary>All values the intervals admit.</summary>
    public LengthInterval Apply(ImmutableArray<LengthInterval> readings) =>
        LengthInterval.TryCreate(End(readings, upper: false), End(readings, upper: true), out var interval)
            ? interval
            : throw new InvalidOperationException("a weighted sum of non-empty intervals is not empty");

    /// <summary>
    /// What one reading has to be for the sum to lie at a limit, the others pulling it as far up, or down, as their intervals
    /// let them. None where they are open that way.
    /// </summary>
    /// <param name="index">A reading that plays a part (<see cref="SignOf"/>).</param>
    /// <param name="readings">What is known of all.</param>
    /// <param name="limit">What the sum shall come to.</param>
    /// <param name="upper">Whether the others pull it up, else down.</param>
    public Length? Needed(int index, ImmutableArray<LengthInterval> readings, Length limit, bool upper)
    {
        ImmutableArray<LengthInterval> others = readings.SetItem(
            index,
            LengthInterval.Between(Length.Zero, Length.Zero)
        );
        return End(others, upper) is { } end
            ? Rounding.ToLength((limit - end.Value).Millimetres / _weights[index])
            : null;
    }

    /// <summary>Whether the sum rises with one reading: above zero, falls with it: below zero, or does not change: zero.</summary>
    public int SignOf(int index) => Math.Sign(_weights[index]);

    /// <summary>What readings of one cause share: one error, its weights added exactly, before anything is squared.</summary>
    private static IndependentErrors InCommon(ImmutableArray<(decimal Weight, SharedError Error)> alike)
    {
        var size = UncertaintyBudget
            .Of([
                .. alike.Select(each =>
                    new UncertaintyContribution(
                        UncertaintySource.Calibration,
                        each.Error.Errors.Millimetres,
                        default
                    )
                        .Times(each.Weight)
                        .CausedBy(each.Error.Cause)
                ),
            ])
            .CombinedMillimetres;
        return alike.MaxBy(each => each.Error.Errors.Expanded.CoverageFactor).Error.Errors.ScaledTo(size);
    }

    internal static double Own(StandardUncertainty whole, StandardUncertainty shared) =>
        Math.Sqrt(
            Math.Max(0, (whole.Millimetres * whole.Millimetres) - (shared.Millimetres * shared.Millimetres))
        );

    private IntervalEnd? End(ImmutableArray<LengthInterval> readings, bool upper)
    {
        var sum = 0m;
        var closed = true;
        foreach (var (weight, reading) in _weights.Zip(readings).Where(pair => pair.First != 0))
        {
            if ((weight > 0 == upper ? reading.Upper : reading.Lower) is not { } end)
            {
                return null;
            }

            sum += weight * end.Value.Millimetres;
            closed &= end.IsClosed;
        }

        return new(Rounding.ToLength(sum), closed);
    }
}
