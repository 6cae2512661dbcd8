using ServiceRules.Application.Library;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.RuleCases.Mutation;

/// <summary>A folder of rules in which one thing is changed.</summary>
/// <param name="Kind">How.</param>
/// <param name="Of">Identity text of the rule or sheet.</param>
/// <param name="What">What is changed, in words: `severity hold -> advise`.</param>
/// <param name="Place">Where it stands.</param>
public sealed record Mutant(MutationKind Kind, string Of, string What, RulePlace Place)
{
    /// <summary>The rule as it is; null when a sheet is changed.</summary>
    internal Rule? Was { get; init; }

    /// <summary>The rule as changed.</summary>
    internal Rule? Rule { get; init; }

    /// <summary>The part that is no longer asked, where one was dropped.</summary>
    internal Engine.Applying.AskedPart? Dropped { get; init; }

    /// <summary>The sheet as changed; null when a rule is.</summary>
    internal LimitSheet? Sheet { get; init; }

    /// <summary>The limit that moved.</summary>
    internal SheetLimit? Limit { get; init; }
}
