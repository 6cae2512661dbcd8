using System.Collections.Immutable;

namespace ServiceRules.Rules.Model;

/// <summary>Everything that judges a record besides its context: layered packs and the limit sheets.</summary>
public sealed record RuleBook(ImmutableArray<RulePack> Packs, ImmutableArray<LimitSheet> Sheets)
{
    /// <summary>The sheet with this identity text, or null.</summary>
    public LimitSheet? Sheet(string id)
    {
        foreach (var sheet in Sheets)
        {
            if (string.Equals(sheet.Id.Text, id, StringComparison.Ordinal))
            {
                return sheet;
            }
        }

        return null;
    }
}
