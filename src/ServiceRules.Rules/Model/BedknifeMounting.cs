namespace ServiceRules.Rules.Model;

/// <summary>How the clearance is set.</summary>
public enum BedknifeMounting
{
    /// <summary>The bedknife moves to the reel: a clearance step shifts the height of cut.</summary>
    Moving,

    /// <summary>The reel moves to the bedknife: height stays, shield gap and reel-to-roller change.</summary>
    Fixed,
}
