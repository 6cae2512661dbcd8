using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;

namespace ServiceRules.Evidence.Log;

/// <summary>
/// The proof that an entry is in a log, to be checked without the log, after C2SP tlog-proof: place, hashes from the
/// entry up, and the checkpoint that they lead to.
/// </summary>
public sealed class TlogProof
{
    /// <summary>The first line of the text form.</summary>
    public const string Heading = "c2sp.org/tlog-proof@v1";

    private const string ExtraMark = "extra ";
    private const string IndexMark = "index ";

    // Base64 as it stands: nothing signs it.
    private readonly string? _extra;

    /// <summary>A proof for one entry.</summary>
    /// <param name="index">Place of the entry in the log, from 0.</param>
    /// <param name="hashes">From the entry's neighbour up: <see cref="MerkleTree.InclusionProof(IReadOnlyList{TreeHash}, long)"/>.</param>
    /// <param name="checkpoint">The head that they lead to.</param>
    public TlogProof(long index, ImmutableArray<TreeHash> hashes, SignedCheckpoint checkpoint)
        : this(index, hashes, checkpoint, (string?)null) { }

    /// <summary>A proof that brings along what it is the proof of.</summary>
    /// <param name="index">Place of the entry in the log, from 0.</param>
    /// <param name="hashes">From the entry's neighbour up: <see cref="MerkleTree.InclusionProof(IReadOnlyList{TreeHash}, long)"/>.</param>
    /// <param name="checkpoint">The head that they lead to.</param>
    /// <param name="extra">Bytes for whoever reads the proof, such as the entry; nothing signs them here.</param>
    public TlogProof(
        long index,
        ImmutableArray<TreeHash> hashes,
        SignedCheckpoint checkpoint,
        ReadOnlySpan<byte> extra
    )
        : this(index, hashes, checkpoint, Convert.ToBase64String(extra)) { }

    private TlogProof(long index, ImmutableArray<TreeHash> hashes, SignedCheckpoint checkpoint, string? extra)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(index);
        (Index, Hashes, Checkpoint, _extra) = (index, hashes, checkpoint, extra);
    }

    /// <summary>Place of the entry in the log, from 0.</summary>
    public long Index { get; }

    /// <summary>Hashes from the entry's neighbour up.</summary>
    public ImmutableArray<TreeHash> Hashes { get; }

    /// <summary>The head that they lead to; whose signatures it bears is another question.</summary>
    public SignedCheckpoint Checkpoint { get; }

    /// <summary>Bytes that came with it, or null. They count for nothing until the proof is held against them.</summary>
    public ReadOnlyMemory<byte>? Extra =>
        _extra is null ? default(ReadOnlyMemory<byte>?) : Convert.FromBase64String(_extra);

    /// <summary>Reads the text form.</summary>
    /// <param name="utf8">The bytes of the text.</param>
    /// <param name="proof">What they say.</param>
    /// <param name="faults">Everything that is wrong with them; empty where nothing is.</param>
    public static bool TryParse(
        ReadOnlySpan<byte> utf8,
        [NotNullWhen(true)] out TlogProof? proof,
        out ImmutableArray<LogTextFault> faults
    )
    {
        proof = null;
        return LogText.TryDecode(utf8, out var text, out faults) && TryRead(text, out proof, out faults);
    }

    /// <summary>Whether this entry, as its leaf's hash, is in the tree of the checkpoint at this place.</summary>
    public bool Proves(TreeHash leaf) =>
        MerkleProof.ProvesInclusion(Index, Checkpoint.Head.Size, leaf, Hashes, Checkpoint.Head.Root);

    /// <summary>The text form.</summary>
    public override string ToString() =>
        $"{Heading}\n{(_extra is null ? "" : $"{ExtraMark}{_extra}\n")}{IndexMark}{LogText.Number(Index)}\n"
        + $"{HashLines.Print(Hashes)}\n{Checkpoint}";

    private static bool TryRead(
        string text,
        [NotNullWhen(true)] out TlogProof? proof,
        out ImmutableArray<LogTextFault> faults
    )
    {
        proof = null;
        var lines = LogText.Lines(text);
        var blank = Array.IndexOf(lines, "");
        if (lines[0] != Heading || blank < 0)
        {
            faults =
                lines[0] != Heading
                    ? LogText.One(1, LogText.Quoted(lines[0]), $"`{Heading}`")
                    : LogText.One(
                        lines.Length + 1,
                        "the end of the text",
                        "an empty line and a signed checkpoint"
                    );
            return false;
        }

        var found = ImmutableArray.CreateBuilder<LogTextFault>();
        var next = 1;
        var extra = ExtraOf(lines, ref next, found);
        var index = IndexOf(lines, ref next, found);
        var hashes = HashLines.Read(lines[Math.Min(next, blank)..blank], next + 1, found);
        var checkpointText = string.Concat(lines.Skip(blank + 1).Select(line => line + "\n"));
        if (
            SignedCheckpoint.TryRead(checkpointText, blank + 2, out var checkpoint, out faults)
            && found.Count == 0
        )
        {
            proof = new TlogProof(index, hashes, checkpoint, extra);
            return true;
        }

        faults = [.. found, .. faults];
        return false;
    }

    private static string? ExtraOf(string[] lines, ref int next, ImmutableArray<LogTextFault>.Builder faults)
    {
        if (!lines[next].StartsWith(ExtraMark, StringComparison.Ordinal))
        {
            return null;
        }

        var extra = lines[next][ExtraMark.Length..];
        next++;
        if (!Base64Text.TryDecode(extra, out _))
        {
            faults.Add(new LogTextFault(next, LogText.Quoted(extra), "base64"));
        }

        return extra;
    }

    private static long IndexOf(string[] lines, ref int next, ImmutableArray<LogTextFault>.Builder faults)
    {
        var line = lines[next];
        next++;
        if (
            !line.StartsWith(IndexMark, StringComparison.Ordinal)
            || !LogText.TryNumber(line[IndexMark.Length..], out var index)
        )
        {
            faults.Add(
                new LogTextFault(next, LogText.Quoted(line), $"`index ` and {LogText.AcceptedNumber}")
            );
            return 0;
        }

        return index;
    }
}
