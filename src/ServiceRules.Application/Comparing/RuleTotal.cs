using System.Collections.Immutable;

namespace ServiceRules.Application.Comparing;

/// <summary>The flips of one rule, by what it was and would be; null: not judged.</summary>
/// <param name="Title">The title of the rule.</param>
public sealed record RuleTotal(string Title)
{
    /// <summary>All of them.</summary>
    public int Flips => Turns.Values.Sum();

    /// <summary>How often each turn came.</summary>
    public ImmutableDictionary<RuleTurn, int> Turns { get; private init; } =
        ImmutableDictionary<RuleTurn, int>.Empty;

    internal RuleTotal With(Flip flip)
    {
        var turn = RuleTurn.Of(flip);
        return this with { Turns = Turns.SetItem(turn, Turns.GetValueOrDefault(turn) + 1) };
    }
}
