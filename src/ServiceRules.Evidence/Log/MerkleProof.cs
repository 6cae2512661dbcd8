namespace ServiceRules.Evidence.Log;

/// <summary>
/// Checks proofs of the Merkle tree of RFC 9162 without having the log: sections 2.1.3.2 and 2.1.4.2. Whatever is given,
/// the answer is yes or no, after at most as many steps as the proof has hashes.
/// </summary>
public static class MerkleProof
{
    /// <summary>The most hashes of a proof in a text, as C2SP bounds it: enough for 2⁶² entries.</summary>
    public const int HashesMost = 63;

    /// <summary>Whether the leaf stands at <paramref name="index"/> in the tree of this size and root.</summary>
    /// <param name="index">Place of the leaf, from 0.</param>
    /// <param name="size">Number of leaves of the tree.</param>
    /// <param name="leaf">The leaf's hash: <see cref="MerkleTree.LeafHash"/> of the entry.</param>
    /// <param name="proof">Hashes from the leaf's neighbour up.</param>
    /// <param name="root">Root of the tree.</param>
    public static bool ProvesInclusion(
        long index,
        long size,
        TreeHash leaf,
        IReadOnlyList<TreeHash> proof,
        TreeHash root
    )
    {
        if (index < 0 || index >= size)
        {
            return false;
        }

        var (node, last) = (index, size - 1);
        var hash = leaf;
        foreach (var neighbour in proof)
        {
            if (last == 0)
            {
                return false;
            }

            if (IsRight(node) || node == last)
            {
                hash = MerkleTree.NodeHash(neighbour, hash);
                (node, last) = UpToARightNode(node, last);
            }
            else
            {
                hash = MerkleTree.NodeHash(hash, neighbour);
            }

            (node, last) = (node >> 1, last >> 1);
        }

        return last == 0 && hash == root;
    }

    /// <summary>
    /// Whether the tree of the new size and root begins with the tree of the old size and root. From size 0 nothing can
    /// be proved (every log begins with nothing): false, except that an empty tree is the same as itself.
    /// </summary>
    /// <param name="oldSize">Number of leaves before.</param>
    /// <param name="newSize">Number of leaves after.</param>
    /// <param name="oldRoot">Root before.</param>
    /// <param name="newRoot">Root after.</param>
    /// <param name="proof">Hashes of section 2.1.4.1; none where the sizes are equal.</param>
    public static bool ProvesConsistency(
        long oldSize,
        long newSize,
        TreeHash oldRoot,
        TreeHash newRoot,
        IReadOnlyList<TreeHash> proof
    )
    {
        if (oldSize == newSize)
        {
            return proof.Count == 0
                && oldRoot == newRoot
                && (oldSize > 0 || (oldSize == 0 && oldRoot == MerkleTree.EmptyRoot));
        }

        return Roots(oldSize, newSize, oldRoot, proof) is { } roots && roots == (oldRoot, newRoot);
    }

    /// <summary>
    /// Whether the proof shows that the tree of the new size and root begins with another tree than the one of the old
    /// size and root. A proof that merely fails shows nothing: it may be one of other trees. Where the old size is a power
    /// of two a proof leaves the old root out, and so can never show this.
    /// </summary>
    /// <param name="oldSize">Number of leaves before.</param>
    /// <param name="newSize">Number of leaves after.</param>
    /// <param name="oldRoot">Root before.</param>
    /// <param name="newRoot">Root after.</param>
    /// <param name="proof">Hashes of section 2.1.4.1.</param>
    public static bool RefutesConsistency(
        long oldSize,
        long newSize,
        TreeHash oldRoot,
        TreeHash newRoot,
        IReadOnlyList<TreeHash> proof
    ) => Roots(oldSize, newSize, oldRoot, proof) is { } roots && roots.New == newRoot && roots.Old != oldRoot;

    /// <summary>The roots of both trees as the hashes of the proof give them; null where it is no proof between them.</summary>
    private static (TreeHash Old, TreeHash New)? Roots(
        long oldSize,
        long newSize,
        TreeHash oldRoot,
        IReadOnlyList<TreeHash> proof
    )
    {
        if (oldSize <= 0 || oldSize >= newSize || proof.Count == 0)
        {
            return null;
        }

        // The old root is the first hash where the old tree is one full subtree: then the proof leaves it out.
        var isFull = (oldSize & (oldSize - 1)) == 0;
        var (node, last) = (oldSize - 1, newSize - 1);
        while (IsRight(node))
        {
            (node, last) = (node >> 1, last >> 1);
        }

        var oldHash = isFull ? oldRoot : proof[0];
        var newHash = oldHash;
        foreach (var hash in isFull ? proof : proof.Skip(1))
        {
            if (last == 0)
            {
                return null;
            }

            if (IsRight(node) || node == last)
            {
                oldHash = MerkleTree.NodeHash(hash, oldHash);
                newHash = MerkleTree.NodeHash(hash, newHash);
                (node, last) = UpToARightNode(node, last);
            }
            else
            {
                newHash = MerkleTree.NodeHash(newHash, hash);
            }

            (node, last) = (node >> 1, last >> 1);
        }

        return last == 0 ? (oldHash, newHash) : null;
    }

    private static bool IsRight(long node) => (node & 1) == 1;

    // A last node without a neighbour goes up unchanged until it is somebody's right.
    private static (long Node, long Last) UpToARightNode(long node, long last)
    {
        while (node != 0 && !IsRight(node))
        {
            (node, last) = (node >> 1, last >> 1);
        }

        return (node, last);
    }
}
