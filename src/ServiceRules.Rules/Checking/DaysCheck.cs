using System.Globalization;
using ServiceRules.Rules.Diagnostics;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Checking;

/// <summary>What is over on a day, or has not begun: rules that judge no job any more, texts that are cited no more.</summary>
internal static class DaysCheck
{
    public static void Run(RuleLibrary library, DateOnly today, Remarks remarks)
    {
        foreach (var rule in library.Rules.Where(rule => rule.Value.When.Until < today))
        {
            remarks.Notice(
                DiagnosticCode.RuleOver,
                rule,
                "/when/until",
                $"rule `{rule.Value.Id}` was in force until {Said(rule.Value.When.Until)}: it judges older records only, and no job of today",
                "nothing to do where that is meant; else a later day, or the rule that follows it"
            );
        }

        var named = library.Jurisdictions.Select(one => one.Value).ToHashSet(StringComparer.Ordinal);
        foreach (
            var pack in library.Packs.Where(pack =>
                pack.Pack.Layer is PackLayer.Jurisdiction
                && named.Contains(pack.Pack.Id.Text)
                && !pack.Pack.IsInForceOn(today)
            )
        )
        {
            var isOver = pack.Pack.Until < today;
            remarks.Notice(
                DiagnosticCode.TextNotInForce,
                new Placed<RulePack>(pack.Pack, pack.File, ""),
                isOver ? "/until" : "/from",
                isOver
                    ? $"the site names `{pack.Pack.Id}`, whose text was in force until {Said(pack.Pack.Until)}: records after that day cite nothing from it"
                    : $"the site names `{pack.Pack.Id}`, whose text comes into force on {Said(pack.Pack.From)}: records before that day cite nothing from it",
                "a pack of the text that is in force today beside it, named in `site.json`; the old one stays for older records"
            );
        }
    }

    private static string Said(DateOnly? day) =>
        day?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) ?? "";
}
