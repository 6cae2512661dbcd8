namespace ServiceRules.Domain.Trade;

/// <summary>The two published bands of waves on mown turf, tip to tip.</summary>
public enum WaveBand
{
    /// <summary>In neither band.</summary>
    Neither,

    /// <summary>Marcelling: up to 2 in (50.8 mm), put down to the clip (MK7, MK8).</summary>
    Marcelling,

    /// <summary>
    /// Washboarding: 6 to 8 in, printed also as 150 to 200 mm, put down among others to a roller out of round or a
    /// unit that rocks (MK7, MK8). The wider of both prints counts: 150 to 203.2 mm.
    /// </summary>
    Washboarding,
}
