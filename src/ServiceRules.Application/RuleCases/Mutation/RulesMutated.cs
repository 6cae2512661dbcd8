using System.Collections.Immutable;

namespace ServiceRules.Application.RuleCases.Mutation;

/// <summary>What became of every change.</summary>
/// <param name="Tried">One for each, by file and place.</param>
public sealed record RulesMutated(ImmutableArray<MutantTried> Tried)
{
    /// <summary>How many came to an end.</summary>
    public int Count(MutantEnd end) => Tried.Count(one => one.End == end);

    /// <summary>The changes that nothing tells.</summary>
    public IEnumerable<MutantTried> Survivors => Tried.Where(one => one.End is MutantEnd.Survived);

    /// <summary>Whether everything was tried and nothing survived.</summary>
    public bool IsGood => Tried.All(one => one.End is not (MutantEnd.Survived or MutantEnd.NotTried));
}
