using System.Collections.Immutable;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Geometry;

/// <summary>
/// Whether one straight line can pass through intervals at stations. It can when it can through every three of them
/// (Helly's theorem in the plane of offset and slope), and through three when the chord of the outer two can meet the
/// one between. Decided by products only, so that nothing is rounded.
/// </summary>
internal static class CommonLine
{
    /// <summary>Whether there is such a line.</summary>
    /// <param name="stations">Distances from the left end, ascending.</param>
    /// <param name="intervals">What is known at each.</param>
    public static bool Exists(ImmutableArray<Length> stations, ImmutableArray<LengthInterval> intervals)
    {
        for (var right = 2; right < stations.Length; right++)
        {
            for (var middle = 1; middle < right; middle++)
            {
                for (var left = 0; left < middle; left++)
                {
                    var toLeft = (stations[middle] - stations[left]).Millimetres;
                    var toRight = (stations[right] - stations[middle]).Millimetres;
                    if (!Meets(intervals[left], intervals[middle], intervals[right], toLeft, toRight))
                    {
                        return false;
                    }
                }
            }
        }

        return true;
    }

    private static bool Meets(
        LengthInterval left,
        LengthInterval middle,
        LengthInterval right,
        decimal toLeft,
        decimal toRight
    ) =>
        IsPossible((toRight, left.Upper), (toLeft, right.Upper), (-(toLeft + toRight), middle.Lower))
        && IsPossible((-toRight, left.Lower), (-toLeft, right.Lower), (toLeft + toRight, middle.Upper));

    /// <summary>Whether the sum, whose greatest value these ends make, can be zero or more.</summary>
    private static bool IsPossible(params ReadOnlySpan<(decimal Weight, IntervalEnd? End)> terms)
    {
        var sum = 0m;
        var closed = true;
        foreach (var (weight, end) in terms)
        {
            if (weight == 0)
            {
                continue;
            }

            if (end is not { } known)
            {
                return true;
            }

            sum += weight * known.Value.Millimetres;
            closed &= known.IsClosed;
        }

        return sum > 0 || (sum == 0 && closed);
    }
}
