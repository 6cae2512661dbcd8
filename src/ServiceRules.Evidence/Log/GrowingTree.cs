using System.Numerics;

namespace ServiceRules.Evidence.Log;

/// <summary>
/// A Merkle tree (RFC 9162 section 2.1) that grows at its end. It keeps the leaves, from which proofs are made, and the
/// roots of its full subtrees, so that a further leaf costs at most one hash for each level and not one for each leaf.
/// Not safe to share between threads.
/// </summary>
public sealed class GrowingTree
{
    private readonly List<TreeHash> leaves = [];

    // Roots of the full subtrees, the largest first: one for each bit set in the number of leaves.
    private readonly List<TreeHash> full = [];

    /// <summary>Number of leaves.</summary>
    public int Size => leaves.Count;

    /// <summary>The leaves in their order.</summary>
    public IReadOnlyList<TreeHash> Leaves => leaves;

    /// <summary>Root over all leaves so far.</summary>
    public TreeHash Root => RootOf(full);

    /// <summary>Adds the next leaf.</summary>
    /// <param name="leaf">The leaf's hash: <see cref="MerkleTree.LeafHash"/> of the entry.</param>
    public void Add(TreeHash leaf)
    {
        Add(full, leaves.Count, leaf);
        leaves.Add(leaf);
    }

    /// <summary>The root that the tree would have with more leaves; the tree itself stays as it is.</summary>
    public TreeHash RootWith(IEnumerable<TreeHash> more)
    {
        var grown = new List<TreeHash>(full);
        var count = leaves.Count;
        foreach (var leaf in more)
        {
            Add(grown, count, leaf);
            count++;
        }

        return RootOf(grown);
    }

    private static void Add(List<TreeHash> full, int count, TreeHash leaf)
    {
        var merged = BitOperations.TrailingZeroCount(~(uint)count);
        var hash = leaf;
        for (var level = 0; level < merged; level++)
        {
            hash = MerkleTree.NodeHash(full[^1], hash);
            full.RemoveAt(full.Count - 1);
        }

        full.Add(hash);
    }

    private static TreeHash RootOf(List<TreeHash> full)
    {
        if (full.Count == 0)
        {
            return MerkleTree.EmptyRoot;
        }

        var root = full[^1];
        for (var at = full.Count - 2; at >= 0; at--)
        {
            root = MerkleTree.NodeHash(full[at], root);
        }

        return root;
    }
}
