using System.Collections.Immutable;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Engine.Inference;

namespace ServiceRules.Engine.Consequences;

/// <summary>
/// What follows from findings: fixed rules that hold whatever the packs say. All of them only add facts.
/// </summary>
internal static class ConsequenceRules
{
    public static ImmutableArray<Production> All { get; } =
    [
        Production.When("a finding keeps its subject", new FindingKeeps(), new KeepsSubject()),
        Production.When("what keeps a part keeps the whole", new PartIsKept(), new KeepsWhole()),
        Production.When("unsafe work is unsafe for all of it", new FindingIsUnsafe(), new MakesUnsafe()),
        Production.When("unsafe work on the whole keeps its parts", new WholeIsUnsafe(), new KeepsPart()),
        Production.When("a finding shows a reading stale", new FindingShowsStale(), new MakesStale()),
        Production.When("a stale reading proves nothing", new RestsOnStale(), new LosesProof()),
        Production.When(
            "a finding without proof keeps its subject",
            new FindingIsDoubted(),
            new DoubtKeeps()
        ),
        Production.When("what is kept is still to be set", new FindingIsOpen(), new Unsettles()),
        Production.When(
            "what lost its proof is still to be set",
            new FindingIsDoubted(),
            new DoubtUnsettles()
        ),
        Production.When("a remedy sets a quantity", new FindingIsRemedied(), new SetsQuantity()),
        Production.When("a remedy waits for what would upset it", new UpsetsRemedy(), new RemedyWaits()),
    ];

    private sealed record FindingKeeps : ICondition<FindingFact>
    {
        public bool Holds(FindingFact fact) => fact.Keeps;
    }

    private sealed record KeepsSubject : IConsequence<FindingFact>
    {
        public IEnumerable<Fact> Of(FindingFact fact) => [new Kept(fact.Subject, fact.Effect, fact.Rule)];
    }

    private sealed record PartIsKept : IRelation<Kept, PartOf>
    {
        public bool Holds(Kept left, PartOf right) => Same(left.Subject, right.Part);
    }

    private sealed record KeepsWhole : IConsequence<Kept, PartOf>
    {
        public IEnumerable<Fact> Of(Kept left, PartOf right) => [left with { Subject = right.Whole }];
    }

    private sealed record FindingIsUnsafe : ICondition<FindingFact>
    {
        public bool Holds(FindingFact fact) =>
            fact is { OnUnit: false, Keeps: true, Severity: Severity.Stop };
    }

    private sealed record MakesUnsafe : IConsequence<FindingFact>
    {
        public IEnumerable<Fact> Of(FindingFact fact) => [new Unsafe(fact.Subject, fact.Effect, fact.Rule)];
    }

    private sealed record WholeIsUnsafe : IRelation<Unsafe, PartOf>
    {
        public bool Holds(Unsafe left, PartOf right) => Same(left.Whole, right.Whole);
    }

    private sealed record KeepsPart : IConsequence<Unsafe, PartOf>
    {
        public IEnumerable<Fact> Of(Unsafe left, PartOf right) =>
            [new Kept(right.Part, left.Effect, left.Rule), left with { Whole = right.Part }];
    }

    private sealed record FindingShowsStale : ICondition<FindingFact>
    {
        public bool Holds(FindingFact fact) => !fact.ShowsStale.IsEmpty;
    }

    private sealed record MakesStale : IConsequence<FindingFact>
    {
        public IEnumerable<Fact> Of(FindingFact fact) =>
            fact.ShowsStale.Select(quantity => new StaleReading(fact.Subject, quantity, fact.Rule));
    }

    private sealed record RestsOnStale : IRelation<StaleReading, FindingFact>
    {
        public bool Holds(StaleReading left, FindingFact right) =>
            right.Verdict == Verdict.Met
            && right.JudgedAsLeft.Contains(left.Quantity)
            && (!right.OnUnit || Same(left.Unit, right.Subject));
    }

    private sealed record LosesProof : IConsequence<StaleReading, FindingFact>
    {
        public IEnumerable<Fact> Of(StaleReading left, FindingFact right) =>
            [new Doubted(right.Key, left.Unit, left.Quantity, left.Rule)];
    }

    private sealed record FindingIsDoubted : IRelation<Doubted, FindingFact>
    {
        public bool Holds(Doubted left, FindingFact right) => Same(left.Finding, right.Key);
    }

    private sealed record DoubtKeeps : IConsequence<Doubted, FindingFact>
    {
        public IEnumerable<Fact> Of(Doubted left, FindingFact right) =>
            right.EffectIfUnproven is Effect.Hold or Effect.Stop
                ? [new Kept(right.Subject, right.EffectIfUnproven, right.Rule)]
                : [];
    }

    private sealed record FindingIsOpen : ICondition<FindingFact>
    {
        public bool Holds(FindingFact fact) => fact is { Keeps: true, WouldUpset.IsEmpty: false };
    }

    private sealed record Unsettles : IConsequence<FindingFact>
    {
        public IEnumerable<Fact> Of(FindingFact fact) => UnsettledBy(fact);
    }

    private sealed record DoubtUnsettles : IConsequence<Doubted, FindingFact>
    {
        public IEnumerable<Fact> Of(Doubted left, FindingFact right) => UnsettledBy(right);
    }

    private sealed record FindingIsRemedied : ICondition<FindingFact>
    {
        public bool Holds(FindingFact fact) => fact.Sets is not null;
    }

    private sealed record SetsQuantity : IConsequence<FindingFact>
    {
        public IEnumerable<Fact> Of(FindingFact fact) =>
            fact.Sets is { } quantity ? [new Remedied(fact.Key, fact.Subject, fact.OnUnit, quantity)] : [];
    }

    private sealed record UpsetsRemedy : IRelation<Unsettled, Remedied>
    {
        public bool Holds(Unsettled left, Remedied right) =>
            left.Upsets == right.Quantity && (!right.OnUnit || Same(left.Unit, right.Subject));
    }

    private sealed record RemedyWaits : IConsequence<Unsettled, Remedied>
    {
        public IEnumerable<Fact> Of(Unsettled left, Remedied right) =>
            [new Waits(right.Finding, left.Unit, left.Rule)];
    }

    private static IEnumerable<Fact> UnsettledBy(FindingFact finding) =>
        finding.WouldUpset.Select(upset => new Unsettled(finding.Subject, upset, finding.Rule));

    private static bool Same(string left, string right) =>
        string.Equals(left, right, StringComparison.Ordinal);
}
