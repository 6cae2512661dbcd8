using System.Buffers.Binary;
using FsCheck.Xunit;
using ServiceRules.Evidence.Log;

namespace ServiceRules.Evidence.Tests.Log;

public sealed class MerklePropertyTests
{
    private const int Times = 1000;

    [Property(MaxTest = Times)]
    public void Root_AnySize_EqualsTheRecursionOfTheStandard(int seed)
    {
        var leaves = Leaves(new Random(seed), 0);

        Assert.Equal(RecursiveTree.Root(leaves), MerkleTree.Root(leaves));
    }

    [Property(MaxTest = Times)]
    public void Proofs_AnySize_EqualTheRecursionOfTheStandard(int seed)
    {
        var random = new Random(seed);
        var leaves = Leaves(random, 1);
        var (index, oldSize) = (random.Next(leaves.Length), 1 + random.Next(leaves.Length));

        Assert.Equal(RecursiveTree.Path(index, leaves), MerkleTree.InclusionProof(leaves, index));
        Assert.Equal(RecursiveTree.Proof(oldSize, leaves), MerkleTree.ConsistencyProof(leaves, oldSize));
    }

    [Property(MaxTest = Times)]
    public void InclusionProof_OfAnEarlierSize_EqualsTheProofOfThatTree(int seed)
    {
        var random = new Random(seed);
        var leaves = Leaves(random, 1);
        var size = 1 + random.Next(leaves.Length);
        var index = random.Next(size);

        Assert.Equal(
            RecursiveTree.Path(index, [.. leaves.Take(size)]),
            MerkleTree.InclusionProof(leaves, size, index)
        );
        Assert.Throws<ArgumentOutOfRangeException>(() => MerkleTree.InclusionProof(leaves, size, size));
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            MerkleTree.InclusionProof(leaves, leaves.Length + 1, 0)
        );
    }

    [Property(MaxTest = Times)]
    public void InclusionProof_EveryLeaf_IsProvedWhereItStandsAndNowhereElse(int seed)
    {
        var leaves = Leaves(new Random(seed), 1, most: 24);
        var root = MerkleTree.Root(leaves);
        for (var index = 0; index < leaves.Length; index++)
        {
            var proof = MerkleTree.InclusionProof(leaves, index);
            for (var claimed = -1; claimed <= leaves.Length; claimed++)
            {
                Assert.Equal(
                    claimed == index,
                    MerkleProof.ProvesInclusion(claimed, leaves.Length, leaves[index], proof, root)
                );
            }
        }
    }

    [Property(MaxTest = Times)]
    public void ProvesInclusion_AnyChange_Fails(int seed)
    {
        var random = new Random(seed);
        var leaves = Leaves(random, 1);
        var index = random.Next(leaves.Length);
        var (leaf, root) = (leaves[index], MerkleTree.Root(leaves));
        var proof = MerkleTree.InclusionProof(leaves, index);
        bool Proves(TreeHash ofLeaf, IReadOnlyList<TreeHash> by, TreeHash toRoot) =>
            MerkleProof.ProvesInclusion(index, leaves.Length, ofLeaf, by, toRoot);

        Assert.True(Proves(leaf, proof, root));
        Assert.False(Proves(Flipped(leaf, random), proof, root));
        Assert.False(Proves(leaf, proof, Flipped(root, random)));
        Assert.False(Proves(leaf, [.. proof, root], root));
        Assert.False(Proves(leaf, [leaf, .. proof], root));
        if (!proof.IsEmpty)
        {
            var at = random.Next(proof.Length);
            Assert.False(Proves(leaf, proof.SetItem(at, Flipped(proof[at], random)), root));
            Assert.False(Proves(leaf, proof.RemoveAt(at), root));
            Assert.False(Proves(root, [], root));
        }
    }

    [Property(MaxTest = Times)]
    public void ProvesInclusion_OtherSize_FailsWhereItWouldGiveTheLeafAnotherPath(int seed)
    {
        var random = new Random(seed);
        var leaves = Leaves(random, 2);
        var index = random.Next(leaves.Length);
        var root = MerkleTree.Root(leaves);
        var proof = MerkleTree.InclusionProof(leaves, index);

        // Half or double the size takes another number of hashes, whatever the leaf, except for the first leaves of it.
        Assert.False(
            MerkleProof.ProvesInclusion(index, index, leaves[index], proof, root),
            "a size that ends before the leaf"
        );
        Assert.False(
            MerkleProof.ProvesInclusion(index, 4L * leaves.Length, leaves[index], proof, root),
            "a size with longer paths"
        );
    }

    [Property(MaxTest = Times)]
    public void ConsistencyProof_EveryEarlierSize_IsProvedAndNoOther(int seed)
    {
        var random = new Random(seed);
        var leaves = Leaves(random, 1, most: 24);
        var root = MerkleTree.Root(leaves);
        for (var oldSize = 1; oldSize <= leaves.Length; oldSize++)
        {
            var oldRoot = MerkleTree.Root(leaves[..oldSize]);
            var proof = MerkleTree.ConsistencyProof(leaves, oldSize);
            bool Proves(long from, TreeHash fromRoot) =>
                MerkleProof.ProvesConsistency(from, leaves.Length, fromRoot, root, proof);

            Assert.True(Proves(oldSize, oldRoot));
            Assert.False(Proves(oldSize, Flipped(oldRoot, random)));
            for (var other = -1; other <= leaves.Length + 1; other++)
            {
                if (other != oldSize)
                {
                    Assert.False(Proves(other, oldRoot), $"size {other} for {oldSize} of {leaves.Length}");
                }
            }
        }
    }

    [Property(MaxTest = Times)]
    public void ProvesConsistency_HistoryChanged_FailsWithEveryProofThatEitherLogCanGive(int seed)
    {
        var random = new Random(seed);
        var leaves = Leaves(random, 2);
        var oldSize = 1 + random.Next(leaves.Length - 1);
        var oldRoot = MerkleTree.Root(leaves[..oldSize]);
        var honest = MerkleTree.ConsistencyProof(leaves, oldSize);
        var changed = (TreeHash[])leaves.Clone();
        var at = random.Next(oldSize);
        changed[at] = Flipped(changed[at], random);
        var changedRoot = MerkleTree.Root(changed);

        foreach (var proof in new[] { honest, MerkleTree.ConsistencyProof(changed, oldSize) })
        {
            Assert.False(MerkleProof.ProvesConsistency(oldSize, leaves.Length, oldRoot, changedRoot, proof));
        }

        // A proof leaves the old root out where the old tree is one full subtree: nothing is shown then.
        var isFull = (oldSize & (oldSize - 1)) == 0;
        Assert.Equal(
            !isFull,
            MerkleProof.RefutesConsistency(
                oldSize,
                leaves.Length,
                oldRoot,
                changedRoot,
                MerkleTree.ConsistencyProof(changed, oldSize)
            )
        );
        Assert.False(
            MerkleProof.RefutesConsistency(oldSize, leaves.Length, oldRoot, MerkleTree.Root(leaves), honest)
        );
    }

    [Property(MaxTest = Times)]
    public void ProvesConsistency_ProofChanged_Fails(int seed)
    {
        var random = new Random(seed);
        var leaves = Leaves(random, 2);
        var oldSize = 1 + random.Next(leaves.Length - 1);
        var (oldRoot, root) = (MerkleTree.Root(leaves[..oldSize]), MerkleTree.Root(leaves));
        var proof = MerkleTree.ConsistencyProof(leaves, oldSize);
        bool Proves(IReadOnlyList<TreeHash> by) =>
            MerkleProof.ProvesConsistency(oldSize, leaves.Length, oldRoot, root, by);
        var at = random.Next(proof.Length);

        Assert.True(Proves(proof));
        Assert.False(Proves(proof.SetItem(at, Flipped(proof[at], random))));
        Assert.False(Proves(proof.RemoveAt(at)));
        Assert.False(Proves([.. proof, root]));
        Assert.False(Proves([oldRoot, .. proof]));
        Assert.False(Proves([]));
    }

    /// <summary>Sizes near powers of two come up more often than others.</summary>
    private static TreeHash[] Leaves(Random random, int fewest, int most = 300)
    {
        var size =
            random.Next(2) == 0 ? random.Next(fewest, most) : (1 << random.Next(9)) + random.Next(-1, 2);
        var leaves = new TreeHash[Math.Clamp(size, fewest, most)];
        for (var index = 0; index < leaves.Length; index++)
        {
            var entry = new byte[sizeof(int) * 2];
            BinaryPrimitives.WriteInt32LittleEndian(entry, index);
            BinaryPrimitives.WriteInt32LittleEndian(entry.AsSpan(sizeof(int)), random.Next());
            leaves[index] = MerkleTree.LeafHash(entry);
        }

        return leaves;
    }

    private static TreeHash Flipped(TreeHash hash, Random random)
    {
        var bytes = hash.ToBytes();
        bytes[random.Next(bytes.Length)] ^= (byte)(1 << random.Next(8));
        return TreeHash.TryParse(Convert.ToBase64String(bytes), out var flipped)
            ? flipped
            : throw new InvalidOperationException("as long as before");
    }
}
