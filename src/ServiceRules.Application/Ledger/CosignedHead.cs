using ServiceRules.Evidence.Log;

namespace ServiceRules.Application.Ledger;

/// <summary>How far a witness that is trusted has cosigned a log.</summary>
/// <param name="Witness">The witness's key.</param>
/// <param name="Size">Entries of the largest head that it cosigned.</param>
/// <param name="At">When it did, by its own clock; null where the key signs without a time.</param>
/// <param name="Where">The checkpoint that bears the cosignature.</param>
public sealed record CosignedHead(NoteKey Witness, long Size, DateTimeOffset? At, string Where);
