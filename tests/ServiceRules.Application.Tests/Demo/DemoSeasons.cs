using System.Collections.Immutable;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Demo;
using ServiceRules.Application.Library;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Engine;
using ServiceRules.TestKit;

namespace ServiceRules.Application.Tests.Demo;

/// <summary>The demo of the shipped site, made and judged once for all tests.</summary>
internal static class DemoSeasons
{
    private static readonly AssessmentDigests NoDigests = new("record", "context", "packs");

    private static readonly Lazy<ImmutableArray<JudgedDemoJob>> Usual = new(() =>
        Judge(DemoScenario.UsualSeed)
    );

    public static LoadedRules Rules { get; } = RuleFolder.Load(ReferenceFiles.InRepository("rules"));

    public static SiteRegisters Site => Rules.Site!;

    public static ImmutableArray<DemoJob> Jobs { get; } = DemoScenario.Make(DemoScenario.UsualSeed, Site);

    public static ImmutableArray<JudgedDemoJob> Judged => Usual.Value;

    public static ImmutableArray<JudgedDemoJob> Judge(int seed)
    {
        var engine = new RuleEngine();
        return
        [
            .. DemoScenario
                .Make(seed, Site)
                .Select(job => new JudgedDemoJob(
                    job,
                    engine.Assess(job.Record, ContextFreezer.Freeze(Site, job.Record), Rules.Book, NoDigests)
                )),
        ];
    }
}
