using System.Collections.Immutable;

namespace ServiceRules.Evidence.Log;

/// <summary>What the known keys say about a note.</summary>
/// <param name="Verified">Signatures that hold.</param>
/// <param name="Failed">Keys whose name and id stand over a signature that does not hold.</param>
public sealed record NoteVerdict(ImmutableArray<VerifiedSignature> Verified, ImmutableArray<NoteKey> Failed)
{
    /// <summary>At least one known key signed the text, and no signature in a known key's name fails.</summary>
    public bool IsTrusted => !Verified.IsEmpty && Failed.IsEmpty;
}
