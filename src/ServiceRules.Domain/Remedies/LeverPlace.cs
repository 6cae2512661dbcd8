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
    private readonly bool _lowIsOpen;

    public LeverPlace(LandingPlace place, Length station, Knowledge knowledge, AdjusterPair adjusters)
    {
        Place = place;
        Station = station;
        Knowledge = knowledge;
        var span = (adjusters.RightAt - adjusters.LeftAt).Millimetres;
        PerLeftStep = adjusters.Step.Millimetres * (adjusters.RightAt - station).Millimetres;
        PerRightStep = adjusters.Step.Millimetres * (station - adjusters.LeftAt).Millimetres;
        // A measured value is solved for as read; proof after turning is the business of the next reading.
        if (knowledge is MeasuredValue measured)
        {
            _low = _high = measured.Value.Millimetres * span;
        }
        else if (knowledge is LengthInterval interval)
        {
            _low = interval.Lower?.Value.Millimetres * span;
            _high = interval.Upper?.Value.Millimetres * span;
            _lowIsOpen = interval.Lower is { IsClosed: false };
        }
    }

    public LandingPlace Place { get; }

    public Length Station { get; }

    public Knowledge Knowledge { get; }

    public decimal PerLeftStep { get; }

    public decimal PerRightStep { get; }

    /// <summary>The least possible value now.</summary>
    public decimal? Low => _low;

    /// <summary>The greatest possible value now.</summary>
    public decimal? High => _high;

    /// <summary>Whether a least value of exactly zero is itself excluded, and so does not touch.</summary>
    public bool LowIsOpen => _lowIsOpen;

    public decimal? LowAfter(int left, int right) => _low + Moved(left, right);

    public decimal? HighAfter(int left, int right) => _high + Moved(left, right);

    public decimal Moved(int left, int right) => (left * PerLeftStep) + (right * PerRightStep);

    public bool Touches(int left, int right) =>
        LowAfter(left, right) is not { } low || low < 0 || (low == 0 && !_lowIsOpen);

    /// <summary>The largest distance from a scaled target; an unknown end has none.</summary>
    public decimal Deviation(int left, int right, decimal target)
    {
        var aimed = target - Moved(left, right);
        return Math.Max(Math.Abs((_low ?? aimed) - aimed), Math.Abs((_high ?? aimed) - aimed));
    }
}
