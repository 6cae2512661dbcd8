using System.Collections.Immutable;
using ServiceRules.Evidence.Log;

namespace ServiceRules.Application.Witnessing;

/// <summary>What a witness has stored of one log.</summary>
/// <param name="Origin">Name of the log.</param>
/// <param name="Keys">Keys trusted for it.</param>
/// <param name="Latest">The checkpoint cosigned last, with the witness's cosignature; null before the first.</param>
/// <param name="CosignedAt">The time in that cosignature.</param>
/// <param name="Count">How many checkpoints are stored.</param>
public sealed record StoredLog(
    string Origin,
    ImmutableArray<NoteKey> Keys,
    SignedCheckpoint? Latest,
    DateTimeOffset? CosignedAt,
    int Count
)
{
    /// <summary>The same, as the witness decides by it.</summary>
    public WitnessedLog Known => new(Origin, Keys, Latest?.Head);
}
