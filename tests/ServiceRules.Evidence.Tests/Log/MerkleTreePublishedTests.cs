using System.Globalization;
using System.Text;
using ServiceRules.Evidence.Log;

namespace ServiceRules.Evidence.Tests.Log;

public sealed class MerkleTreePublishedTests
{
    [Fact]
    public void Root_PublishedEntries_GivesThePublishedRootOfEverySize()
    {
        var roots = MerkleVectors.RootsBySize.ToList();

        Assert.Equal(9, roots.Count);
        Assert.All(
            roots,
            stated =>
                Assert.Equal(
                    MerkleVectors.Hash(stated.Value),
                    MerkleTree.Root([
                        .. MerkleVectors.Leaves.Take(int.Parse(stated.Name, CultureInfo.InvariantCulture)),
                    ])
                )
        );
    }

    [Fact]
    public void Root_EveryFullSubtree_GivesThePublishedHash()
    {
        var level = 0;
        foreach (var hashes in MerkleVectors.SubtreesByLevel.EnumerateArray())
        {
            var width = 1 << level++;
            var found = MerkleVectors.Leaves.Chunk(width).Select(leaves => MerkleTree.Root(leaves));

            Assert.Equal(MerkleVectors.Hashes(hashes), found);
        }

        Assert.Equal(4, level);
    }

    [Fact]
    public void Hashes_PublishedHasherVectors_AreEqual()
    {
        static byte[] Utf8(string text) => Encoding.UTF8.GetBytes(text);
        static TreeHash Hash(byte[] bytes) => MerkleVectors.Hash(Convert.ToHexString(bytes));

        foreach (var vector in MerkleVectors.Hashers)
        {
            var expected = MerkleVectors.Hash(vector.GetProperty("value"));
            switch (vector.GetProperty("what").GetString())
            {
                case "empty root":
                    Assert.Equal(expected, MerkleTree.EmptyRoot);
                    Assert.Equal(expected, MerkleTree.Root([]));
                    break;
                case "leaf" or "leaf of empty input":
                    Assert.Equal(
                        expected,
                        MerkleTree.LeafHash(Utf8(vector.GetProperty("input_utf8").GetString()!))
                    );
                    break;
                case "node":
                    // Published over texts that are no hashes; see the properties for nodes over hashes.
                    Assert.Equal(
                        expected,
                        Hash(
                            System.Security.Cryptography.SHA256.HashData([
                                1,
                                .. Utf8(vector.GetProperty("left_utf8").GetString()!),
                                .. Utf8(vector.GetProperty("right_utf8").GetString()!),
                            ])
                        )
                    );
                    break;
                case var other:
                    Assert.Fail($"an unknown vector `{other}`");
                    break;
            }
        }
    }

    [Fact]
    public void Root_LeavesOfOneByte_GivesTheComputedRoots()
    {
        var leaves = Enumerable.Range(0, 256).Select(value => MerkleTree.LeafHash([(byte)value])).ToList();
        var roots = MerkleVectors
            .Read("computed-roots-single-byte-leaves.json")
            .GetProperty("roots_hex")
            .EnumerateObject()
            .ToList();

        Assert.Equal(26, roots.Count);
        Assert.All(
            roots,
            stated =>
                Assert.Equal(
                    MerkleVectors.Hash(stated.Value),
                    MerkleTree.Root(leaves[..int.Parse(stated.Name, CultureInfo.InvariantCulture)])
                )
        );
    }

    [Fact]
    public void InclusionProof_EveryLeafOfSizes1To8_IsByteForByteTheReference()
    {
        var stated = MerkleVectors.Read("all-proofs-sizes-1-8.json").GetProperty("inclusion");

        Assert.Equal(36, stated.GetArrayLength());
        foreach (var each in stated.EnumerateArray())
        {
            var index = each.GetProperty("leaf_index").GetInt32();
            var leaves = MerkleVectors.Leaves.Take(each.GetProperty("tree_size").GetInt32()).ToList();
            var proof = MerkleTree.InclusionProof(leaves, index);

            Assert.Equal(MerkleVectors.Hash(each.GetProperty("leaf_hash_hex")), leaves[index]);
            Assert.Equal(MerkleVectors.Hashes(each.GetProperty("proof_hex")), proof.ToArray());
            Assert.True(
                MerkleProof.ProvesInclusion(
                    index,
                    leaves.Count,
                    leaves[index],
                    proof,
                    MerkleVectors.Hash(each.GetProperty("root_hex"))
                )
            );
        }
    }

    [Fact]
    public void ConsistencyProof_EveryPairOfSizes1To8_IsByteForByteTheReference()
    {
        var stated = MerkleVectors.Read("all-proofs-sizes-1-8.json").GetProperty("consistency");

        Assert.Equal(36, stated.GetArrayLength());
        foreach (var each in stated.EnumerateArray())
        {
            var oldSize = each.GetProperty("size1").GetInt32();
            var newSize = each.GetProperty("size2").GetInt32();
            var proof = MerkleTree.ConsistencyProof([.. MerkleVectors.Leaves.Take(newSize)], oldSize);

            Assert.Equal(MerkleVectors.Hashes(each.GetProperty("proof_hex")), proof.ToArray());
            Assert.True(
                MerkleProof.ProvesConsistency(
                    oldSize,
                    newSize,
                    MerkleVectors.Hash(each.GetProperty("root1_hex")),
                    MerkleVectors.Hash(each.GetProperty("root2_hex")),
                    proof
                )
            );
        }
    }

    [Theory]
    [InlineData(-1)]
    [InlineData(8)]
    public void InclusionProof_LeafThatIsNotThere_IsADefectOfTheCaller(long index) =>
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            MerkleTree.InclusionProof(MerkleVectors.Leaves, index)
        );

    [Theory]
    [InlineData(-1)]
    [InlineData(9)]
    public void ConsistencyProof_SizeThatNeverWas_IsADefectOfTheCaller(long oldSize) =>
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            MerkleTree.ConsistencyProof(MerkleVectors.Leaves, oldSize)
        );
}
