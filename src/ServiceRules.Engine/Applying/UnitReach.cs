using System.Collections.Immutable;
using ServiceRules.Rules.Evaluation;

namespace ServiceRules.Engine.Applying;

/// <summary>What a rule asks of a unit, answered on one.</summary>
/// <param name="Unit">The unit.</param>
/// <param name="Traits">What was looked at.</param>
/// <param name="Answers">One for each part that is asked of units; empty when none is.</param>
public sealed record UnitReach(UnitFrame Unit, UnitTraits Traits, ImmutableArray<PartAnswer> Answers)
{
    /// <summary>Whether the unit is all that the rule asks.</summary>
    public bool Holds => Answers.All(answer => answer.Holds);
}
