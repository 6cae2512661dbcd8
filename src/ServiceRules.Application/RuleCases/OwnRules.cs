using ServiceRules.Application.Library;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.RuleCases;

/// <summary>Which rules of a folder a case can reach at all.</summary>
internal static class OwnRules
{
    /// <summary>Whether the site's own rule of the same identity always takes a rule's place.</summary>
    public static bool IsReplaced(LoadedRules rules, Rule rule) =>
        rules.Book.Packs.Any(pack =>
            pack.Layer is PackLayer.Site
            && pack.Rules.Any(one => one.Id == rule.Id && !ReferenceEquals(one, rule))
        );
}
