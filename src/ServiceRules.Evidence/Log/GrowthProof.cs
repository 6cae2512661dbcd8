using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;

namespace ServiceRules.Evidence.Log;

/// <summary>
/// The proof that a log only grew since an earlier size. Its text form is the beginning of what C2SP tlog-witness has a
/// log send to a witness: a line <c>old</c> with the earlier size, then one hash a line.
/// </summary>
public sealed class GrowthProof
{
    private const string OldMark = "old ";

    /// <summary>A proof.</summary>
    /// <param name="oldSize">The earlier size.</param>
    /// <param name="hashes"><see cref="MerkleTree.ConsistencyProof"/> from that size.</param>
    public GrowthProof(long oldSize, ImmutableArray<TreeHash> hashes)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(oldSize);
        (OldSize, Hashes) = (oldSize, hashes);
    }

    /// <summary>What is sent where there is no earlier size: nothing to prove.</summary>
    public static GrowthProof FromNothing { get; } = new(0, []);

    /// <summary>The earlier size.</summary>
    public long OldSize { get; }

    /// <summary>The hashes that prove it.</summary>
    public ImmutableArray<TreeHash> Hashes { get; }

    /// <summary>Whether the later head continues the earlier one.</summary>
    /// <param name="earlier">A head of the size <see cref="OldSize"/>.</param>
    /// <param name="later">The head that the proof leads to.</param>
    public bool Proves(Checkpoint earlier, Checkpoint later) =>
        earlier.Origin == later.Origin
        && earlier.Size == OldSize
        && MerkleProof.ProvesConsistency(OldSize, later.Size, earlier.Root, later.Root, Hashes);

    /// <summary>Whether it shows that the later head continues another log than the earlier one's.</summary>
    /// <param name="earlier">A head of the size <see cref="OldSize"/>.</param>
    /// <param name="later">The head that the proof leads to.</param>
    public bool Refutes(Checkpoint earlier, Checkpoint later) =>
        earlier.Origin == later.Origin
        && earlier.Size == OldSize
        && MerkleProof.RefutesConsistency(OldSize, later.Size, earlier.Root, later.Root, Hashes);

    /// <summary>Reads the text form.</summary>
    /// <param name="utf8">The bytes of the text.</param>
    /// <param name="proof">What they say.</param>
    /// <param name="faults">Everything that is wrong with them; empty where nothing is.</param>
    public static bool TryParse(
        ReadOnlySpan<byte> utf8,
        [NotNullWhen(true)] out GrowthProof? proof,
        out ImmutableArray<LogTextFault> faults
    )
    {
        proof = null;
        if (!LogText.TryDecode(utf8, out var text, out faults))
        {
            return false;
        }

        var lines = LogText.Lines(text);
        var found = ImmutableArray.CreateBuilder<LogTextFault>();
        var oldSize = 0L;
        if (
            !lines[0].StartsWith(OldMark, StringComparison.Ordinal)
            || !LogText.TryNumber(lines[0][OldMark.Length..], out oldSize)
        )
        {
            found.Add(
                new LogTextFault(1, LogText.Quoted(lines[0]), $"`{OldMark}` and {LogText.AcceptedNumber}")
            );
        }

        var hashes = HashLines.Read(lines[1..], 2, found);
        faults = found.ToImmutable();
        proof = faults.IsEmpty ? new GrowthProof(oldSize, hashes) : null;
        return proof is not null;
    }

    /// <summary>The text form.</summary>
    public override string ToString() => $"{OldMark}{LogText.Number(OldSize)}\n{HashLines.Print(Hashes)}";
}
