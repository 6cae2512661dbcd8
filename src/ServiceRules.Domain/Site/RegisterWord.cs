namespace ServiceRules.Domain.Site;

/// <summary>What a register of gauges says of one that a record names.</summary>
/// <param name="Entry">Its entry; null: the register does not have it.</param>
public sealed record RegisterWord(RegisteredInstrument? Entry);
