using System.Text.Json;
using ServiceRules.Evidence.Log;

namespace ServiceRules.Evidence.Tests.Log;

/// <summary>All 196 cases of transparency-dev/merkle, 184 of which must fail.</summary>
public sealed class MerkleProofPublishedCasesTests
{
    private static readonly Dictionary<string, JsonElement> Inclusion = Cases("inclusion-cases.json");
    private static readonly Dictionary<string, JsonElement> Consistency = Cases("consistency-cases.json");

    public static TheoryData<string> InclusionCases => [.. Inclusion.Keys];

    public static TheoryData<string> ConsistencyCases => [.. Consistency.Keys];

    [Theory]
    [MemberData(nameof(InclusionCases))]
    public void ProvesInclusion_PublishedCase_GivesThePublishedVerdict(string name)
    {
        var stated = Inclusion[name];
        // 2⁶⁴ - 1 stands for minus one in the published cases.
        var index = unchecked((long)stated.GetProperty("leaf_index").GetUInt64());

        var proves =
            MerkleVectors.TryStandIn(stated.GetProperty("leaf_hash_hex"), out var leaf)
            && MerkleVectors.TryStandIn(stated.GetProperty("root_hex"), out var root)
            && MerkleVectors.TryStandIns(stated.GetProperty("proof_hex"), out var proof)
            && MerkleProof.ProvesInclusion(
                index,
                stated.GetProperty("tree_size").GetInt64(),
                leaf,
                proof,
                root
            );

        Assert.Equal(!stated.GetProperty("must_fail").GetBoolean(), proves);
    }

    [Theory]
    [MemberData(nameof(ConsistencyCases))]
    public void ProvesConsistency_PublishedCase_GivesThePublishedVerdict(string name)
    {
        var stated = Consistency[name];

        var proves =
            MerkleVectors.TryStandIn(stated.GetProperty("root1_hex"), out var oldRoot)
            && MerkleVectors.TryStandIn(stated.GetProperty("root2_hex"), out var newRoot)
            && MerkleVectors.TryStandIns(stated.GetProperty("proof_hex"), out var proof)
            && MerkleProof.ProvesConsistency(
                stated.GetProperty("size1").GetInt64(),
                stated.GetProperty("size2").GetInt64(),
                oldRoot,
                newRoot,
                proof
            );

        Assert.Equal(!stated.GetProperty("must_fail").GetBoolean(), proves);
    }

    [Fact]
    public void Cases_AsPublished_AreAllThere()
    {
        Assert.Equal(98, Inclusion.Count);
        Assert.Equal(98, Consistency.Count);
        Assert.Equal(
            2 * 92,
            Inclusion
                .Values.Concat(Consistency.Values)
                .Count(each => each.GetProperty("must_fail").GetBoolean())
        );
    }

    private static Dictionary<string, JsonElement> Cases(string file) =>
        MerkleVectors
            .Read(file)
            .GetProperty("cases")
            .EnumerateArray()
            .ToDictionary(each => each.GetProperty("case").GetString()!, StringComparer.Ordinal);
}
