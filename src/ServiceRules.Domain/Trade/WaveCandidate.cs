using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Trade;

/// <summary>A part with the wave that it would print.</summary>
/// <param name="Cause">The part.</param>
/// <param name="Pitch">The wave that it would print, tip to tip.</param>
/// <param name="Off">How far the measured wave is off it, as a share of it: 0.05 is 5 % longer.</param>
public sealed record WaveCandidate(WaveCause Cause, Length Pitch, decimal Off)
{
    private const decimal LikelyWithin = 0.10m;

    /// <summary>Within 10 % either way (a suggestion of the trade reference, no source).</summary>
    public bool IsLikely => Math.Abs(Off) <= LikelyWithin;
}
