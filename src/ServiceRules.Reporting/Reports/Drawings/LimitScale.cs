using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Reporting.Reports.Drawings;

/// <summary>
/// The stretch of lengths that a bar shows: limits and reading with some air. A reading far outside is brought in to
/// the edge, so that the limits stay readable.
/// </summary>
internal sealed class LimitScale
{
    private const double Air = 0.12;

    /// <summary>A reading further off than this many zone widths is shown at the edge.</summary>
    private const double FarthestZones = 1.6;

    private readonly double _from;
    private readonly double _to;

    private LimitScale(double from, double to)
    {
        _from = from;
        _to = to;
    }

    /// <summary>One scale for all of them, or null when there is nothing to show.</summary>
    public static LimitScale? Of(IReadOnlyCollection<Comparison> comparisons)
    {
        var limits = comparisons.SelectMany(LimitsOf).ToList();
        var known = comparisons.SelectMany(KnownOf).ToList();
        if (limits.Count == 0)
        {
            return null;
        }
        var (low, high) = (limits.Min(), limits.Max());
        var zone = high - low;
        if (zone <= 0)
        {
            var farthest = known.Count == 0 ? 0 : known.Max(value => Math.Abs(value - low));
            zone = Math.Max(farthest, Math.Abs(low) * 0.25);
        }
        zone = zone > 0 ? zone : 1;
        var from = Math.Max(known.Append(low).Min(), low - (FarthestZones * zone));
        var to = Math.Min(known.Append(high).Max(), high + (FarthestZones * zone));
        // A gap has no lower limit but its natural bound.
        if (comparisons.All(one => one.LowerLimit is null) && known.All(value => value >= 0))
        {
            from = Math.Min(from, 0);
        }
        else if (comparisons.All(one => one.LowerLimit is null))
        {
            from -= zone * 0.3;
        }
        if (comparisons.All(one => one.UpperLimit is null))
        {
            to += zone * 0.3;
        }
        var air = (to - from) * Air;
        return new LimitScale(from - air, to + air);
    }

    /// <summary>0 at the low end, 1 at the high end, kept inside.</summary>
    public double Share(Length length) => Math.Clamp(RawShare(length), 0, 1);

    public bool Shows(Length length) => RawShare(length) is >= 0 and <= 1;

    private double RawShare(Length length) => ((double)length.Millimetres - _from) / (_to - _from);

    private static IEnumerable<double> LimitsOf(Comparison one) =>
        new[] { one.LowerLimit, one.UpperLimit, one.Target }.OfType<Length>().Select(Number);

    private static IEnumerable<double> KnownOf(Comparison one)
    {
        var doubt = one.Uncertainty ?? Length.Zero;
        return new[] { one.Value - doubt, one.Value + doubt, one.KnownLower, one.KnownUpper }
            .OfType<Length>()
            .Select(Number);
    }

    private static double Number(Length length) => (double)length.Millimetres;
}
