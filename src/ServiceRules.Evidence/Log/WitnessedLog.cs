using System.Collections.Immutable;

namespace ServiceRules.Evidence.Log;

/// <summary>What a witness knows of one log.</summary>
/// <param name="Origin">Name of the log.</param>
/// <param name="Keys">Keys that the witness trusts for it; none where it does not know the log.</param>
/// <param name="Latest">The head it cosigned last; null before the first.</param>
public sealed record WitnessedLog(string Origin, ImmutableArray<NoteKey> Keys, Checkpoint? Latest)
{
    /// <summary>Size of the head cosigned last; 0 before the first.</summary>
    public long LatestSize => Latest?.Size ?? 0;
}
