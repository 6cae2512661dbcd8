using System.Collections.Immutable;

namespace ServiceRules.Application.RuleCases;

/// <summary>What the cases beside the rules came to.</summary>
/// <param name="Cases">One result for each case, in the order of their files.</param>
/// <param name="Fixtures">One result for each fixture that a case starts from, by file.</param>
public sealed record RulesTested(ImmutableArray<CaseResult> Cases, ImmutableArray<FixtureResult> Fixtures)
{
    /// <summary>Every case came out as it says, from fixtures with nothing wrong.</summary>
    public bool IsGood =>
        Cases.All(result => result.Outcome is CaseOutcome.AsExpected)
        && Fixtures.All(fixture => fixture.IsReleased);
}
