using System.Security.Cryptography;
using System.Text;
using ServiceRules.Evidence.Log;

namespace ServiceRules.Evidence.Tests.Log;

/// <summary>A log of numbered entries with a key of its own; one with another <paramref name="turn"/> tells otherwise.</summary>
internal sealed class SampleLog(string origin = SampleLog.Origin, int turn = int.MaxValue) : IDisposable
{
    public const string Origin = "alder-reach.example/ledger";

    private readonly Lazy<ECDsa> _key = new(() => ECDsa.Create(ECCurve.NamedCurves.nistP256));

    private readonly List<TreeHash> _leaves = [];

    public ILogSigner Signer => new EcdsaLogSigner(origin, _key.Value);

    public NoteKey Key => Signer.Key;

    public TreeHash Leaf(int index)
    {
        while (_leaves.Count <= index)
        {
            var text = _leaves.Count < turn ? $"entry {_leaves.Count}" : $"other {_leaves.Count}";
            _leaves.Add(MerkleTree.LeafHash(Encoding.UTF8.GetBytes(text)));
        }

        return _leaves[index];
    }

    public IReadOnlyList<TreeHash> Leaves(int size) => [.. Enumerable.Range(0, size).Select(Leaf)];

    public Checkpoint Head(int size) => new(origin, size, MerkleTree.Root(Leaves(size)));

    public SignedCheckpoint Signed(int size) => SignedCheckpoint.By(Signer, Head(size));

    public GrowthProof Growth(int oldSize, int newSize) =>
        new(oldSize, MerkleTree.ConsistencyProof(Leaves(newSize), oldSize));

    public TlogProof Proof(int index, int size) =>
        new(index, MerkleTree.InclusionProof(Leaves(size), index), Signed(size));

    /// <summary>The same head in the hand of this log's key, whatever it says.</summary>
    public SignedCheckpoint Signed(Checkpoint head) => SignedCheckpoint.By(Signer, head);

    public void Dispose()
    {
        if (_key.IsValueCreated)
        {
            _key.Value.Dispose();
        }
    }
}
