namespace ServiceRules.Rules.Model;

/// <summary>Which departure of the reel from a cylinder is judged.</summary>
public enum ReelFormOf
{
    /// <summary>One end larger than the other: a cone.</summary>
    Taper,

    /// <summary>The middle larger or smaller than the ends: a barrel or an hourglass.</summary>
    Barrel,
}
