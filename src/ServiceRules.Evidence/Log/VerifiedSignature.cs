namespace ServiceRules.Evidence.Log;

/// <summary>A signature that a key really made.</summary>
/// <param name="Key">The key.</param>
/// <param name="CosignedAt">The time that a witness signed with it; null for signatures that carry no time.</param>
public sealed record VerifiedSignature(NoteKey Key, DateTimeOffset? CosignedAt);
