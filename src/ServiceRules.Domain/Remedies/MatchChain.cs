using System.Collections.Immutable;

namespace ServiceRules.Domain.Remedies;

/// <summary>The settings chosen so far, from the left, and what they come to.</summary>
internal sealed class MatchChain
{
    private readonly MatchChain? _before;
    private readonly int _choice;

    private MatchChain(MatchChain? before, int choice, MatchCost cost)
    {
        _before = before;
        _choice = choice;
        Cost = cost;
    }

    public static MatchChain Empty { get; } = new(null, 0, default);

    public MatchCost Cost { get; }

    /// <summary>The setting chosen for each unit, by its place among the options.</summary>
    public IEnumerable<int> Choices => _before is null ? [] : _before.Choices.Append(_choice);

    public MatchChain Then(int choice, MatchCost cost) => new(this, choice, Cost.Plus(cost));

    public MatchPlan Plan(ImmutableArray<ImmutableArray<MatchSetting>> options) =>
        new([.. Choices.Select((choice, unit) => options[unit][choice])]);
}
