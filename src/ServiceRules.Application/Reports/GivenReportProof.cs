using System.Diagnostics.CodeAnalysis;
using ServiceRules.Application.Ledger;
using ServiceRules.Evidence.Log;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Reports;

/// <summary>A proof that stands beside a report, with the entry that it brings along.</summary>
public sealed record GivenReportProof
{
    private GivenReportProof(TlogProof proof, FiledEntry entry) => (Proof, Filed) = (proof, entry);

    public SignedCheckpoint Checkpoint => Proof.Checkpoint;

    public long Index => Proof.Index;

    public LedgerEntry Entry => Filed.Entry;

    private TlogProof Proof { get; }

    private FiledEntry Filed { get; }

    public static bool TryParse(
        ReadOnlyMemory<byte> bytes,
        [NotNullWhen(true)] out GivenReportProof? given,
        [NotNullWhen(false)] out string? fault
    )
    {
        given = null;
        if (!TlogProof.TryParse(bytes.Span, out var proof, out var faults))
        {
            fault = string.Join("; ", faults);
            return false;
        }

        if (proof.Extra is not { } extra)
        {
            fault = new LogTextFault(
                2,
                "no line `extra`",
                "the proof of a report, which brings its entry along in a line `extra`"
            ).ToString();
            return false;
        }

        if (!EntryReading.TryRead(new StoredEntry(proof.Index, extra), out var entry, out var why))
        {
            fault = $"line 2: the entry in the line `extra` cannot be read: {why}";
            return false;
        }

        given = new GivenReportProof(proof, entry);
        fault = null;
        return true;
    }

    /// <summary>Whether the entry stands where the proof says, under its checkpoint.</summary>
    public bool Holds() => Proof.Proves(MerkleTree.LeafHash(Filed.Bytes.Span));
}
