using System.Collections.Immutable;
using System.Numerics;
using System.Security.Cryptography;

namespace ServiceRules.Evidence.Log;

/// <summary>
/// The Merkle tree of RFC 9162 section 2.1 over SHA-256: leaf = H(0x00 ‖ entry), node = H(0x01 ‖ left ‖ right), a list
/// of n is split at the largest power of two below n. Without recursion: what is held besides the leaves grows with the
/// logarithm of their number.
/// </summary>
public static class MerkleTree
{
    private const byte LeafPrefix = 0;
    private const byte NodePrefix = 1;

    /// <summary>The root of a log without entries: SHA-256 of nothing.</summary>
    public static TreeHash EmptyRoot { get; } = new(SHA256.HashData([]));

    /// <summary>The hash that an entry has as a leaf.</summary>
    /// <param name="entry">The entry's bytes as they are logged.</param>
    public static TreeHash LeafHash(ReadOnlySpan<byte> entry)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        hash.AppendData([LeafPrefix]);
        hash.AppendData(entry);
        return new TreeHash(hash.GetHashAndReset());
    }

    /// <summary>The hash of an inner node.</summary>
    public static TreeHash NodeHash(TreeHash left, TreeHash right)
    {
        Span<byte> content = stackalloc byte[1 + (2 * TreeHash.ByteCount)];
        content[0] = NodePrefix;
        left.CopyTo(content[1..]);
        right.CopyTo(content[(1 + TreeHash.ByteCount)..]);
        Span<byte> hash = stackalloc byte[TreeHash.ByteCount];
        SHA256.HashData(content, hash);
        return new TreeHash(hash);
    }

    /// <summary>The root over all leaves, in their order.</summary>
    public static TreeHash Root(IReadOnlyList<TreeHash> leaves) => RootOf(leaves, 0, leaves.Count);

    /// <summary>
    /// PATH of RFC 9162 section 2.1.3.1: what proves that the leaf is in the tree of all leaves, from its neighbour up.
    /// </summary>
    /// <param name="leaves">All leaves of the tree.</param>
    /// <param name="index">Which of them, from 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no such leaf.</exception>
    public static ImmutableArray<TreeHash> InclusionProof(IReadOnlyList<TreeHash> leaves, long index) =>
        InclusionProof(leaves, leaves.Count, index);

    /// <summary>The same in the tree as it was when it had fewer leaves.</summary>
    /// <param name="leaves">All leaves of the tree as it is now.</param>
    /// <param name="size">How many there were, from 1 to all.</param>
    /// <param name="index">Which of them, from 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">There was no such leaf, or the tree never had this size.</exception>
    public static ImmutableArray<TreeHash> InclusionProof(
        IReadOnlyList<TreeHash> leaves,
        long size,
        long index
    )
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThan(size, leaves.Count);
        ArgumentOutOfRangeException.ThrowIfNegative(index);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(index, size);
        var (begin, end) = (0, (int)size);
        var fromTheTop = new List<TreeHash>();
        while (end - begin > 1)
        {
            var middle = begin + Split(end - begin);
            if (index < middle)
            {
                fromTheTop.Add(RootOf(leaves, middle, end));
                end = middle;
            }
            else
            {
                fromTheTop.Add(RootOf(leaves, begin, middle));
                begin = middle;
            }
        }

        return Reversed(fromTheTop);
    }

    /// <summary>
    /// PROOF of RFC 9162 section 2.1.4.1: what proves that the tree of all leaves begins with the tree of the first
    /// <paramref name="oldSize"/> of them. Empty for size 0 and for all leaves: there is nothing to prove.
    /// </summary>
    /// <param name="leaves">All leaves of the tree as it is now.</param>
    /// <param name="oldSize">How many there were before, from 0 to all.</param>
    /// <exception cref="ArgumentOutOfRangeException">The tree never had this size.</exception>
    public static ImmutableArray<TreeHash> ConsistencyProof(IReadOnlyList<TreeHash> leaves, long oldSize)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(oldSize);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(oldSize, leaves.Count);
        if (oldSize == 0)
        {
            return [];
        }

        var (begin, end) = (0, leaves.Count);
        var fromTheTop = new List<TreeHash>();
        while (end > oldSize)
        {
            var middle = begin + Split(end - begin);
            if (oldSize <= middle)
            {
                fromTheTop.Add(RootOf(leaves, middle, end));
                end = middle;
            }
            else
            {
                fromTheTop.Add(RootOf(leaves, begin, middle));
                begin = middle;
            }
        }

        if (begin > 0)
        {
            // The old tree's last part; where it is the whole old tree, the verifier has its root already.
            fromTheTop.Add(RootOf(leaves, begin, end));
        }

        return Reversed(fromTheTop);
    }

    /// <summary>The largest power of two below <paramref name="count"/>, which is 2 or more.</summary>
    private static int Split(int count) => 1 << BitOperations.Log2((uint)count - 1);

    private static TreeHash RootOf(IReadOnlyList<TreeHash> leaves, int begin, int end)
    {
        if (begin == end)
        {
            return EmptyRoot;
        }

        // Roots of the full subtrees so far, the largest at the bottom: one for each bit set in their number.
        var full = new Stack<TreeHash>();
        for (var count = 0; count < end - begin; count++)
        {
            var hash = leaves[begin + count];
            for (var bits = count; (bits & 1) == 1; bits >>= 1)
            {
                hash = NodeHash(full.Pop(), hash);
            }

            full.Push(hash);
        }

        var root = full.Pop();
        while (full.TryPop(out var left))
        {
            root = NodeHash(left, root);
        }

        return root;
    }

    private static ImmutableArray<TreeHash> Reversed(List<TreeHash> hashes)
    {
        hashes.Reverse();
        return [.. hashes];
    }
}
