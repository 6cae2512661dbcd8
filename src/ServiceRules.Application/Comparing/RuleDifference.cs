using System.Collections.Immutable;
using ServiceRules.Application.Ledger;
using ServiceRules.Formats.Packs;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Comparing;

/// <summary>What two versions of one rule say differently, member by member.</summary>
public static class RuleDifference
{
    private const string Item = "/rules/0/";

    /// <summary>The differences, in the order of the file's members.</summary>
    public static ImmutableArray<PartChange> Between(Rule old, Rule now)
    {
        ArgumentNullException.ThrowIfNull(old);
        ArgumentNullException.ThrowIfNull(now);
        return
        [
            .. JsonDifference
                .Between(Written(old), Written(now))
                .Select(change => new PartChange(change.Pointer[Item.Length..], change.Old, change.New)),
        ];
    }

    private static byte[] Written(Rule rule) => RulePackFormat.Rules.Write(new RulesFile([rule]));
}
