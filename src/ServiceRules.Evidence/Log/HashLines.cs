using System.Collections.Immutable;

namespace ServiceRules.Evidence.Log;

/// <summary>The hashes of a proof in a text, one a line.</summary>
internal static class HashLines
{
    /// <summary>Reads every line as a hash.</summary>
    /// <param name="lines">The lines.</param>
    /// <param name="firstLine">Line of the first one in its file.</param>
    /// <param name="faults">Takes what is wrong.</param>
    public static ImmutableArray<TreeHash> Read(
        IReadOnlyList<string> lines,
        int firstLine,
        ImmutableArray<LogTextFault>.Builder faults
    )
    {
        if (lines.Count > MerkleProof.HashesMost)
        {
            faults.Add(
                new LogTextFault(
                    firstLine + MerkleProof.HashesMost,
                    FormattableString.Invariant($"{lines.Count} hashes"),
                    FormattableString.Invariant($"at most {MerkleProof.HashesMost}")
                )
            );
            return [];
        }

        var hashes = ImmutableArray.CreateBuilder<TreeHash>(lines.Count);
        for (var index = 0; index < lines.Count && faults.Count < LogText.FaultsMost; index++)
        {
            if (TreeHash.TryParse(lines[index], out var hash))
            {
                hashes.Add(hash);
            }
            else
            {
                faults.Add(
                    new LogTextFault(firstLine + index, LogText.Quoted(lines[index]), TreeHash.AcceptedForm)
                );
            }
        }

        return hashes.ToImmutable();
    }

    public static string Print(ImmutableArray<TreeHash> hashes) =>
        string.Concat(hashes.Select(hash => $"{hash}\n"));
}
