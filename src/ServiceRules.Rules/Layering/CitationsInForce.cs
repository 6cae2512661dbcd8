using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Layering;

/// <summary>
/// Which text a finding may cite. A finding cites one jurisdiction alone: of those that the site names, the first that
/// has anything to say of the rule. Where the site names none, nothing is cited: local codes come first.
/// </summary>
public static class CitationsInForce
{
    /// <summary>What is cited for a rule, or null.</summary>
    /// <param name="packs">All packs of the book, in any order.</param>
    /// <param name="jurisdictions">Identity texts of the jurisdiction packs in force at the site, the foremost first.</param>
    /// <param name="rule">The rule.</param>
    /// <param name="on">The day whose texts are asked for; null: whatever their days.</param>
    public static CitedText? Of(
        ImmutableArray<RulePack> packs,
        ImmutableArray<string> jurisdictions,
        Id<Rule> rule,
        DateOnly? on = null
    )
    {
        foreach (var named in jurisdictions)
        {
            foreach (var pack in packs)
            {
                if (
                    pack.Layer == PackLayer.Jurisdiction
                    && (on is not { } day || pack.IsInForceOn(day))
                    && string.Equals(pack.Id.Text, named, StringComparison.Ordinal)
                    && pack.Citations.Where(citation => citation.Rule == rule).ToImmutableArray()
                        is { IsEmpty: false } cited
                )
                {
                    return new(pack.Id, pack.Title, pack.Precedence, cited);
                }
            }
        }

        return null;
    }
}
