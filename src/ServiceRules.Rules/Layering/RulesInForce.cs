using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Layering;

/// <summary>
/// The rules that a site is held to: base packs, the jurisdiction packs in force there, and the site's own. A rule
/// of a higher layer takes the place of the rule of the same identity below it; whether it may is for the pack
/// check to say.
/// </summary>
public static class RulesInForce
{
    /// <summary>The rules, ordered by identity.</summary>
    /// <param name="packs">All packs of the book, in any order.</param>
    /// <param name="jurisdictions">Identity texts of the jurisdiction packs in force at the site.</param>
    public static ImmutableArray<Rule> Of(
        ImmutableArray<RulePack> packs,
        ImmutableArray<string> jurisdictions
    )
    {
        var rules = new SortedDictionary<Id<Rule>, Rule>();
        var layered = packs
            .Where(pack =>
                pack.Layer != PackLayer.Jurisdiction
                || jurisdictions.Contains(pack.Id.Text, StringComparer.Ordinal)
            )
            .OrderBy(pack => pack.Layer)
            .ThenBy(pack => pack.Id);
        foreach (var rule in layered.SelectMany(pack => pack.Rules))
        {
            rules[rule.Id] = rule;
        }

        return [.. rules.Values];
    }
}
