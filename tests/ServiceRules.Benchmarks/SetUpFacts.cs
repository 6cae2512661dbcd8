namespace ServiceRules.Benchmarks;

/// <summary>The places of one unit that <see cref="LimitRules"/> speak of.</summary>
public sealed record SetUpFacts(
    PlaceFact ClearanceLeft,
    PlaceFact ClearanceRight,
    PlaceFact RangeLeft,
    PlaceFact RangeRight,
    PlaceFact TargetLeft,
    PlaceFact TargetRight,
    PlaceFact ShieldLeft,
    PlaceFact ShieldRight,
    PlaceFact ReelInService,
    PlaceFact ReelNotWorn
);
