using System.Collections.Immutable;
using ServiceRules.Application.Library;
using ServiceRules.Application.RuleCases;
using ServiceRules.Application.RuleCases.Mutation;
using ServiceRules.Application.Tests.Library;

namespace ServiceRules.Application.Tests.RuleCases.Mutation;

/// <summary>A change of the rules that a case notices is caught; without that case it survives, and is told with its place.</summary>
public sealed class MutateRulesTests : IDisposable
{
    private const string Cases = "base/clearance.cases.json";
    private const string Rule = "bearings-sound";

    private readonly SpoiltFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void Run_BaseRule_EverythingIsCaught()
    {
        RulesMutated mutated = Run();
        Assert.Equal(
            [
                "severity hold -> advise",
                "unproven hold -> advise",
                "unproven hold -> second-person",
                "when/orRead dropped",
                "when/tasks dropped",
            ],
            mutated.Tried.Select(one => one.Mutant.What).Order(StringComparer.Ordinal)
        );
        Assert.All(mutated.Tried, one => Assert.Equal(MutantEnd.Caught, one.End));
        Assert.True(mutated.IsGood);
    }

    [Fact]
    public void Run_NoCasePromisesThatNobodyMayLetItOut_SofterPolicySurvives()
    {
        folder.Replace(
            Cases,
            "\"name\": \"unproven, and nobody may let that out\",\n      \"expect\": \"unproven\",\n      \"effect\": \"hold\",",
            "\"name\": \"unproven, and nobody may let that out\",\n      \"expect\": \"unproven\","
        );
        MutantTried survivor = Assert.Single(Run().Survivors);
        Assert.Equal("unproven hold -> second-person", survivor.Mutant.What);
        Assert.Equal((Rule, MutationKind.EffectSoftened), (survivor.Mutant.Of, survivor.Mutant.Kind));
        RulePlace place = survivor.Mutant.Place;
        Assert.Equal(("base/clearance.rules.json", "/rules/0/unproven"), (place.File, place.Pointer));
    }

    [Fact]
    public void Run_NoCaseOfAnotherSchool_DroppedConditionSurvivesAtItsLine()
    {
        folder.Replace(
            Cases,
            "\"path\": \"/settingOrders/0/schools/0/school\", \"value\": \"light-contact\"",
            "\"path\": \"/settingOrders/0/schools/1/school\", \"value\": \"light-contact\""
        );
        folder.Replace(
            Cases,
            "\"name\": \"light contact is the school in force\",\n      \"expect\": \"not-applicable\"",
            "\"name\": \"light contact is the school in force\",\n      \"expect\": \"met\""
        );
        MutantTried survivor = Assert.Single(
            Run(rule: "clearance-within-limits").Survivors,
            one => one.Mutant.Kind is MutationKind.ConditionDropped
        );
        Assert.Equal("when/school dropped", survivor.Mutant.What);
        Assert.Contains(
            "\"school\": \"air-gap\"",
            File.ReadAllLines(folder.At(survivor.Mutant.Place.File))[survivor.Mutant.Place.Line - 1],
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Run_Stopped_TellsWhatWasNotTried()
    {
        RulesMutated mutated = Run(stop: new CancellationToken(canceled: true));
        Assert.NotEmpty(mutated.Tried);
        Assert.All(mutated.Tried, one => Assert.Equal(MutantEnd.NotTried, one.End));
        Assert.False(mutated.IsGood);
    }

    [Fact]
    public void Mutants_EverySheet_MovesEachLimitThatAVerdictHangsOn()
    {
        var moved = MutateRules
            .Mutants(folder.Load())
            .Where(mutant => mutant.Of == "reel-180-7-660")
            .Select(mutant => mutant.Place.Pointer)
            .ToHashSet(StringComparer.Ordinal);
        Assert.Contains("/quantities/0/lower", moved);
        Assert.Contains("/quantities/0/schools/0/passes", moved);
        Assert.DoesNotContain(moved, pointer => pointer.EndsWith("/target", StringComparison.Ordinal));
    }

    [Fact]
    public void Run_MovedLimitThatTheCheckRefuses_IsNoSurvivor()
    {
        LoadedRules rules = folder.Load();
        ImmutableArray<Mutant> pairs =
        [
            .. MutateRules
                .Mutants(rules)
                .Where(mutant =>
                    mutant.What == "land-width upper 0.12 in (3.0 mm) -> 0.11 in (3.0 mm)"
                    && mutant.Of == "reel-125-9-510"
                ),
        ];
        RulesMutated mutated = MutateRules.Run(rules, new([], []), pairs, () => { }, default);
        // 0.11 in is 2.794 mm; with its digit it reaches to 2.921 mm, and 3.0 mm begins at 2.95 mm.
        MutantTried only = Assert.Single(mutated.Tried);
        Assert.Equal(MutantEnd.Refused, only.End);
        Assert.StartsWith("SR0010", only.By, StringComparison.Ordinal);
        Assert.True(mutated.IsGood);
    }

    private RulesMutated Run(string rule = Rule, CancellationToken stop = default)
    {
        LoadedRules rules = folder.Load();
        RulesTested tested = TestRules.Run(rules, rule);
        Assert.True(tested.IsGood);
        return MutateRules.Run(rules, tested, MutateRules.Mutants(rules, rule), () => { }, stop);
    }
}
