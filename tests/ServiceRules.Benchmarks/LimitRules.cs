namespace ServiceRules.Benchmarks;

/// <summary>The rules of the base pack that all judges in the comparison can judge: the limits on one unit.</summary>
internal static class LimitRules
{
    public const string Clearance = "clearance-within-limits";
    public const string HeightInRange = "height-in-range";
    public const string HeightOnTarget = "height-on-target";
    public const string Shield = "shield-gap-within-limits";
    public const string ReelInService = "reel-above-service-limit";
    public const string ReelNotWorn = "worn-reel-set-up";

    public static IReadOnlyList<string> All { get; } =
    [Clearance, HeightInRange, HeightOnTarget, Shield, ReelInService, ReelNotWorn];
}
