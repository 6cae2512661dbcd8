namespace ServiceRules.Benchmarks;

/// <summary>What is known at one place and what it is held against, in millimetres; a missing limit is far away.</summary>
public sealed record PlaceFact(decimal Low, decimal High, decimal Lower, decimal Upper);
