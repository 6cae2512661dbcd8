using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text.Json;
using ServiceRules.Evidence.Log;
using ServiceRules.TestKit;

namespace ServiceRules.Evidence.Tests.Log;

/// <summary>The published trees and cases, read from tests/reference.</summary>
internal static class MerkleVectors
{
    private static readonly JsonElement Trees = Read("tree-sizes-0-8.json");

    public static JsonElement Read(string file)
    {
        using var document = JsonDocument.Parse(ReferenceFiles.ReadBytes("evidence", "merkle", file));
        return document.RootElement.Clone();
    }

    /// <summary>The eight published entries.</summary>
    public static IReadOnlyList<byte[]> Entries { get; } =
    [
        .. Trees
            .GetProperty("leaf_inputs_hex")
            .EnumerateArray()
            .Select(entry => Convert.FromHexString(entry.GetString()!)),
    ];

    public static IReadOnlyList<TreeHash> Leaves { get; } =
    [.. Entries.Select(entry => MerkleTree.LeafHash(entry))];

    public static IEnumerable<JsonProperty> RootsBySize =>
        Trees.GetProperty("root_by_size_hex").EnumerateObject();

    public static JsonElement SubtreesByLevel => Trees.GetProperty("complete_subtree_hashes_by_level_hex");

    public static IEnumerable<JsonElement> Hashers => Trees.GetProperty("hasher_vectors").EnumerateArray();

    public static TreeHash Hash(JsonElement hex) => Hash(hex.GetString()!);

    public static TreeHash Hash(string hex) =>
        TreeHash.TryParse(Convert.ToBase64String(Convert.FromHexString(hex)), out var hash)
            ? hash
            : throw new ArgumentException($"`{hex}` is no hash");

    public static TreeHash[] Hashes(JsonElement list) => [.. list.EnumerateArray().Select(Hash)];

    /// <summary>
    /// Some cases write a short text where a root belongs. Of those only being the same or not matters, which another
    /// 32 bytes keep. An empty one is no hash of any kind: false.
    /// </summary>
    public static bool TryStandIn(JsonElement hex, out TreeHash hash)
    {
        var bytes = Convert.FromHexString(hex.GetString()!);
        return TreeHash.TryParse(
            Convert.ToBase64String(bytes.Length is 0 or TreeHash.ByteCount ? bytes : SHA256.HashData(bytes)),
            out hash
        );
    }

    public static bool TryStandIns(JsonElement list, out ImmutableArray<TreeHash> hashes)
    {
        var found = ImmutableArray.CreateBuilder<TreeHash>();
        foreach (var hex in list.EnumerateArray())
        {
            if (!TryStandIn(hex, out var hash))
            {
                hashes = [];
                return false;
            }

            found.Add(hash);
        }

        hashes = found.ToImmutable();
        return true;
    }
}
