using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Remedies;

/// <summary>
/// One place with all lengths multiplied by the distance between the adjusters, so that the lever needs no
/// division and every comparison is exact.
/// </summary>
internal sealed class LeverPlace
{
    private readonly decimal? _low;
    private readonly decimal? _high;
    private readonly decimal? _least;
    private readonly bool _leastIsOpen;
    private readonly decimal _leftLever;
    private readonly decimal _rightLever;
    private readonly AdjusterPair _adjusters;

    /// <param name="place">Station or end.</param>
    /// <param name="station">Distance from the left end.</param>
    /// <param name="knowledge">What is solved for.</param>
    /// <param name="bounds">What contact is counted on: the same, or the bounds that it is an estimate within.</param>
    /// <param name="adjusters">What is turned.</param>
    public LeverPlace(
        LandingPlace place,
        Length station,
        Knowledge knowledge,
        Knowledge bounds,
        AdjusterPair adjusters
    )
    {
        Place = place;
        Station = station;
        Knowledge = knowledge;
        Bounds = bounds;
        var span = (adjusters.RightAt - adjusters.LeftAt).Millimetres;
        _adjusters = adjusters;
        _leftLever = (adjusters.RightAt - station).Millimetres;
        _rightLever = (station - adjusters.LeftAt).Millimetres;
        PerLeftStep = adjusters.Step.Millimetres * _leftLever;
        PerRightStep = adjusters.Step.Millimetres * _rightLever;
        // A measured value is solved for as read; proof after turning is the business of the next reading.
        (_low, _high) = (knowledge.Least?.Millimetres * span, knowledge.Greatest?.Millimetres * span);
        // Nothing is risked on a reading's best value: contact is counted on the least that its U leaves.
        var least = bounds.AsInterval().Lower;
        _least = least?.Value.Millimetres * span;
        _leastIsOpen = least is { IsClosed: false };
    }

    public LandingPlace Place { get; }

    /// <summary>The line that it lies on, where there are several.</summary>
    public int? Line { get; init; }

    public Length Station { get; }

    public Knowledge Knowledge { get; }

    public Knowledge Bounds { get; }

    public decimal PerLeftStep { get; }

    public decimal PerRightStep { get; }

    /// <summary>The least value to land inside the zone, now.</summary>
    public decimal? Low => _low;

    /// <summary>The greatest value to land inside the zone, now.</summary>
    public decimal? High => _high;

    /// <summary>The least possible value now, which contact is counted on.</summary>
    public decimal? Least => _least;

    /// <summary>Whether a least possible value of exactly zero is itself excluded, and so does not touch.</summary>
    public bool LeastIsOpen => _leastIsOpen;

    public decimal? LowAfter(int left, int right) => _low + Moved(left, right);

    public decimal? HighAfter(int left, int right) => _high + Moved(left, right);

    public decimal Moved(int left, int right) => (left * PerLeftStep) + (right * PerRightStep);

    /// <summary>
    /// What is left at the least when every step that closes here takes the most, and every step that opens here adds the
    /// least, that a step may; scaled, as all here.
    /// </summary>
    public decimal LeastMoved(SideTurned left, SideTurned right) =>
        LeastMoved(left, _leftLever) + LeastMoved(right, _rightLever);

    public bool Touches(SideTurned left, SideTurned right) =>
        _least + LeastMoved(left, right) is not { } least || least < 0 || (least == 0 && !_leastIsOpen);

    /// <summary>
    /// That nothing touches in the end, as linear constraints: the least of both sides' steps at their least and at their
    /// most is the least that may be left.
    /// </summary>
    public IEnumerable<StepConstraint> Clear =>
        (
            from left in Steps
            from right in Steps
            select new StepConstraint(left * _leftLever, right * _rightLever, -(_least ?? 0), !_leastIsOpen)
        ).Distinct();

    private decimal[] Steps => [_adjusters.LeastStep.Millimetres, _adjusters.MostStep.Millimetres];

    private decimal LeastMoved(SideTurned side, decimal lever)
    {
        var (least, most) = (_adjusters.LeastStep.Millimetres, _adjusters.MostStep.Millimetres);
        return lever >= 0
            ? lever * ((side.Opened * least) - (side.Closed * most))
            : lever * ((side.Opened * most) - (side.Closed * least));
    }

    /// <summary>The largest distance from a scaled target; an unknown end has none.</summary>
    public decimal Deviation(int left, int right, decimal target)
    {
        var aimed = target - Moved(left, right);
        return Math.Max(Math.Abs((_low ?? aimed) - aimed), Math.Abs((_high ?? aimed) - aimed));
    }
}
