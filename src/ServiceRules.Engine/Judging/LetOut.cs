using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Engine.Judging;

/// <summary>What a finding does to its subject, and the waiver or release it was let out under, if it was.</summary>
/// <param name="Effect">What is left of its effect.</param>
/// <param name="By">The waiver or release in plain words; null when none touches it.</param>
internal readonly record struct LetOut(Effect Effect, string? By);
