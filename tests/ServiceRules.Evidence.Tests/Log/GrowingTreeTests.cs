using System.Globalization;
using System.Text;
using ServiceRules.Evidence.Log;

namespace ServiceRules.Evidence.Tests.Log;

public sealed class GrowingTreeTests
{
    private static TreeHash Leaf(int number) =>
        MerkleTree.LeafHash(Encoding.UTF8.GetBytes(number.ToString(CultureInfo.InvariantCulture)));

    [Fact]
    public void Root_EmptyTree_IsTheRootOfNothing() =>
        Assert.Equal(MerkleTree.EmptyRoot, new GrowingTree().Root);

    [Fact]
    public void Root_EverySizeTo300_IsTheRootOverAllLeaves()
    {
        var tree = new GrowingTree();
        for (var size = 1; size <= 300; size++)
        {
            tree.Add(Leaf(size));

            Assert.Equal(size, tree.Size);
            Assert.Equal(MerkleTree.Root(tree.Leaves), tree.Root);
        }
    }

    [Fact]
    public void RootWith_MoreLeaves_IsTheRootAfterAddingThemAndChangesNothing()
    {
        var tree = new GrowingTree();
        for (var size = 0; size < 40; size++)
        {
            var more = Enumerable.Range(1_000, size % 7).Select(Leaf).ToList();
            var before = tree.Root;

            Assert.Equal(MerkleTree.Root([.. tree.Leaves, .. more]), tree.RootWith(more));
            Assert.Equal((size, before), (tree.Size, tree.Root));
            tree.Add(Leaf(size));
        }
    }
}
