using ServiceRules.Application.Library;
using ServiceRules.Application.RuleCases;
using ServiceRules.Application.RuleCases.Coverage;
using ServiceRules.Application.RuleCases.Mutation;
using ServiceRules.TestKit;

namespace ServiceRules.Application.Tests.RuleCases;

/// <summary>The shipped cases exercise every side of the shipped rules, and notice whatever is moved, dropped or softened in them.</summary>
public sealed class ShippedCasesTests
{
    private static readonly LoadedRules Shipped = RuleFolder.Load(ReferenceFiles.InRepository("rules"));
    private static readonly RulesTested Tested = TestRules.Run(Shipped);

    [Fact]
    public void Of_ShippedFolder_NothingIsLeftWithoutACase() =>
        Assert.Empty(
            CoverRules.Of(Shipped, Tested).Missing.Select(part => $"{part.Of} {part.Part} {part.Side}")
        );

    [Fact]
    public void Run_ShippedFolder_NoChangeSurvives()
    {
        RulesMutated mutated = MutateRules.Run(
            Shipped,
            Tested,
            MutateRules.Mutants(Shipped),
            () => { },
            default
        );
        Assert.True(mutated.Tried.Length > 600);
        Assert.Empty(mutated.Survivors.Select(one => $"{one.Mutant.Of}: {one.Mutant.What}"));
    }
}
