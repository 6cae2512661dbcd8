using System.Text.Json.Nodes;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Tests.Library;

namespace ServiceRules.Application.Tests.Authoring;

/// <summary>What the docs promise of older assessments: the same rules give the same digests, however they are laid out.</summary>
public sealed class DigestTests : IDisposable
{
    private readonly SpoiltFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void Assess_RulesLaidOutOtherwise_GiveTheSameDigestsAndOtherRulesOthers()
    {
        var before = Digests();
        foreach (
            var file in Directory.EnumerateFiles(_folder.Root, "*.rules.json", SearchOption.AllDirectories)
        )
        {
            File.WriteAllText(file, JsonNode.Parse(File.ReadAllText(file))!.ToJsonString());
        }

        Assert.Equal(before, Digests());

        _folder.Replace("sheets/reel-125-9-510.sheet.json", "0.13 mm", "0.12 mm");
        var after = Digests();
        Assert.NotEqual(before.Packs, after.Packs);
        Assert.Equal((before.Record, before.Context), (after.Record, after.Context));
    }

    private Domain.Verdicts.AssessmentDigests Digests()
    {
        var loaded = _folder.Load();
        var bytes = File.ReadAllBytes(_folder.At("base/fixtures/height-check.record.json"));
        return Assert
            .IsType<AssessOutcome.Judged>(new AssessRecord(loaded.Book, loaded.Site!).Assess(bytes))
            .Assessed.Assessment.Digests;
    }
}
