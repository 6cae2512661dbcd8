using System.Security.Cryptography;
using ServiceRules.Evidence.Log;

namespace ServiceRules.Evidence.Tests.Log;

/// <summary>RFC 9162 sections 2.1.1, 2.1.3.1 and 2.1.4.1 as they are written there: by recursion.</summary>
internal static class RecursiveTree
{
    public static TreeHash Root(ReadOnlySpan<TreeHash> leaves)
    {
        if (leaves.Length <= 1)
        {
            return leaves.Length == 0 ? Hash([]) : leaves[0];
        }

        var k = Split(leaves.Length);
        return Hash([1, .. Root(leaves[..k]).ToBytes(), .. Root(leaves[k..]).ToBytes()]);
    }

    public static List<TreeHash> Path(int m, ReadOnlySpan<TreeHash> leaves)
    {
        if (leaves.Length == 1)
        {
            return [];
        }

        var k = Split(leaves.Length);
        return m < k
            ? [.. Path(m, leaves[..k]), Root(leaves[k..])]
            : [.. Path(m - k, leaves[k..]), Root(leaves[..k])];
    }

    public static List<TreeHash> Proof(int m, ReadOnlySpan<TreeHash> leaves) => SubProof(m, leaves, true);

    private static List<TreeHash> SubProof(int m, ReadOnlySpan<TreeHash> leaves, bool isWhole)
    {
        if (m == leaves.Length)
        {
            return isWhole ? [] : [Root(leaves)];
        }

        var k = Split(leaves.Length);
        return m <= k
            ? [.. SubProof(m, leaves[..k], isWhole), Root(leaves[k..])]
            : [.. SubProof(m - k, leaves[k..], false), Root(leaves[..k])];
    }

    private static int Split(int count)
    {
        var k = 1;
        while (2 * k < count)
        {
            k *= 2;
        }

        return k;
    }

    private static TreeHash Hash(byte[] content) =>
        TreeHash.TryParse(Convert.ToBase64String(SHA256.HashData(content)), out var hash)
            ? hash
            : throw new InvalidOperationException("SHA-256 has 32 bytes");
}
