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
        var span = (adjusters.RightAt - adjusters.LeftAt).Millimetres;
        PerLeftStep = adjusters.Step.Millimetres * (adjusters.RightAt - station).Millimetres;
        PerRightStep = adjusters.Step.Millimetres * (station - adjusters.LeftAt).Millimetres;
        (_low, _high) = (LeastOf(knowledge) * span, GreatestOf(knowledge) * span);
        _least = LeastOf(bounds) * span;
        _leastIsOpen = bounds is LengthInterval { Lower.IsClosed: false };
    }

    public LandingPlace Place { get; }

    public Length Station { get; }

    public Knowledge Knowledge { get; }

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

    public bool Touches(int left, int right) =>
        _least + Moved(left, right) is not { } least || least < 0 || (least == 0 && !_leastIsOpen);

    /// <summary>The largest distance from a scaled target; an unknown end has none.</summary>
    public decimal Deviation(int left, int right, decimal target)
    {
        var aimed = target - Moved(left, right);
        return Math.Max(Math.Abs((_low ?? aimed) - aimed), Math.Abs((_high ?? aimed) - aimed));
    }

    // A measured value is solved for as read; proof after turning is the business of the next reading.
    private static decimal? LeastOf(Knowledge knowledge) =>
        knowledge switch
        {
            MeasuredValue measured => measured.Value.Millimetres,
            LengthInterval { Lower: { } lower } => lower.Value.Millimetres,
            _ => null,
        };

    private static decimal? GreatestOf(Knowledge knowledge) =>
        knowledge switch
        {
            MeasuredValue measured => measured.Value.Millimetres,
            LengthInterval { Upper: { } upper } => upper.Value.Millimetres,
            _ => null,
        };
}
