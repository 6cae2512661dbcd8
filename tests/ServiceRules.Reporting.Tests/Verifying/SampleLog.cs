using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Reports;
using ServiceRules.Evidence;
using ServiceRules.Evidence.Log;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Reporting.Tests.Verifying;

/// <summary>A log in memory, which files whatever it is told to.</summary>
internal sealed class SampleLog : IDisposable
{
    private readonly ECDsa _key;
    private readonly EcdsaLogSigner _signer;
    private readonly List<ReadOnlyMemory<byte>> _entries = [];

    public SampleLog(int others = 5, string origin = "alder-reach.example/log")
        : this(ECDsa.Create(ECCurve.NamedCurves.nistP256), others, origin) { }

    private SampleLog(ECDsa key, int others, string origin)
    {
        _key = key;
        _signer = new EcdsaLogSigner(origin, _key);
        for (var index = 0; index < others; index++)
        {
            Append(Entry(EntryKind.Record, $"J-{index}", new byte[] { (byte)index }, null));
        }
    }

    public NoteKey Key => _signer.Key;

    /// <summary>Another history under the same name, signed with the same key.</summary>
    public SampleLog Rewritten(int others) =>
        new(ECDsa.Create(_key.ExportParameters(true)), others, Key.Name);

    public int Size => _entries.Count;

    public void Dispose() => _key.Dispose();

    public static LedgerEntry Entry(
        EntryKind kind,
        string subject,
        ReadOnlyMemory<byte> content,
        string? of
    ) =>
        new()
        {
            Kind = kind,
            At = new DateTimeOffset(2026, 4, 13, 7, 4, 0, 125, TimeSpan.Zero),
            Subject = subject,
            Content = ContentHash.Of(content.Span).ToString(),
            ContentBytes = content.Length,
            Of = of,
        };

    public static LedgerEntry OfRecord(Assessed job) =>
        Entry(EntryKind.Record, job.Record.Id.Text, job.Evidence.Record.Bytes, null);

    public static LedgerEntry OfAssessment(Assessed job) =>
        Entry(
            EntryKind.Assessment,
            job.Record.Id.Text,
            job.Evidence.Assessment.Bytes,
            job.Evidence.Record.Hash.ToString()
        );

    public FilingProofs File(Assessed job) => File(OfRecord(job), OfAssessment(job));

    public FilingProofs File(LedgerEntry record, LedgerEntry assessment)
    {
        var (one, two) = (Append(record), Append(assessment));
        return new FilingProofs(
            _entries[one],
            Prove(one).ToString(),
            _entries[two],
            Prove(two).ToString(),
            Key.ToPem()
        );
    }

    /// <summary>The proofs again, under the checkpoint of now.</summary>
    public FilingProofs Proved(FilingProofs proofs, int record, int assessment) =>
        proofs with
        {
            RecordProof = Prove(record).ToString(),
            AssessmentProof = Prove(assessment).ToString(),
        };

    public FiledNewer Newer(int index) => new(_entries[index], Prove(index).ToString());

    public int Append(LedgerEntry entry)
    {
        Assert.True(
            CanonicalJson.Canonicalise(LedgerEntryFormat.Current.Write(entry)).TryGet(out var leaf, out _)
        );
        _entries.Add(leaf.Bytes);
        return _entries.Count - 1;
    }

    public byte[] FileReport(Assessed job, byte[] report) =>
        ProofOf(
            Append(
                Entry(EntryKind.Report, job.Record.Id.Text, report, job.Evidence.Assessment.Hash.ToString())
            )
        );

    /// <summary>The proof of an entry with the entry inside.</summary>
    public byte[] ProofOf(int index)
    {
        var proof = Prove(index);
        return Encoding.UTF8.GetBytes(
            new TlogProof(proof.Index, proof.Hashes, proof.Checkpoint, _entries[index].Span).ToString()
        );
    }

    public byte[] Checkpoint() => Encoding.UTF8.GetBytes(Signed().ToString());

    public byte[] Growth(int from) =>
        Encoding.UTF8.GetBytes(new GrowthProof(from, MerkleTree.ConsistencyProof(Leaves(), from)).ToString());

    private TlogProof Prove(int index) => new(index, MerkleTree.InclusionProof(Leaves(), index), Signed());

    private SignedCheckpoint Signed() =>
        SignedCheckpoint.By(_signer, new Checkpoint(Key.Name, _entries.Count, MerkleTree.Root(Leaves())));

    private ImmutableArray<TreeHash> Leaves() =>
        [.. _entries.Select(entry => MerkleTree.LeafHash(entry.Span))];
}
