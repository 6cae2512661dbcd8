namespace ServiceRules.Domain.Trade;

/// <summary>A part that passes the turf again and again, and so can print a wave.</summary>
public enum WaveCause
{
    /// <summary>Every blade: the clip itself.</summary>
    Blade,

    /// <summary>Once in each turn of the reel: one high blade, or a reel that runs out.</summary>
    Reel,

    /// <summary>Once in each turn of the front roller.</summary>
    FrontRoller,

    /// <summary>Once in each turn of the rear roller.</summary>
    RearRoller,
}
