using System.Collections.Immutable;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Diagnostics;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Checking;

/// <summary>Every rule has a case for each verdict that it can give, and every case speaks of a rule that can give it.</summary>
internal static class CaseCoverageCheck
{
    public static void Run(RuleLibrary library, Remarks remarks)
    {
        var rules = library
            .Rules.GroupBy(rule => rule.Value.Id.Text, StringComparer.Ordinal)
            .ToDictionary(group => group.Key, group => group.First(), StringComparer.Ordinal);
        var meant = new MeantName(rules.Keys, "a rule of this folder");
        foreach (var expected in library.Cases)
        {
            if (!rules.TryGetValue(expected.Value.Rule, out var rule))
            {
                remarks.Error(
                    DiagnosticCode.UnknownRule,
                    expected,
                    "/rule",
                    $"there is no rule `{expected.Value.Rule}`",
                    meant.Of(expected.Value.Rule)
                );
            }
            else if (!Possible(rule.Value.Check).Contains(expected.Value.Expect))
            {
                remarks.Error(
                    DiagnosticCode.CaseImpossible,
                    expected,
                    "/expect",
                    $"a check of this kind never comes out `{FileWord.Of(expected.Value.Expect)}`",
                    KnownNames.Of(Possible(rule.Value.Check).Select(FileWord.Of), "")
                );
            }
        }

        var covered = library
            .Cases.Select(expected => (expected.Value.Rule, expected.Value.Expect))
            .ToHashSet();
        foreach (var rule in library.Rules)
        {
            var missing = ReachableVerdicts
                .Of(rule.Value.Check)
                .Where(verdict => !covered.Contains((rule.Value.Id.Text, verdict)))
                .Select(FileWord.Of)
                .ToList();
            if (missing.Count > 0)
            {
                remarks.Error(
                    DiagnosticCode.CaseMissing,
                    rule,
                    "",
                    $"rule `{rule.Value.Id}` has no case that comes out {string.Join(" or ", missing.Select(word => $"`{word}`"))}",
                    "cases for every verdict that it can give, in the `*.cases.json` beside it"
                );
            }
        }
    }

    private static ImmutableArray<Verdict> Possible(Check check) =>
        ReachableVerdicts.Of(check).Add(Verdict.NotApplicable);
}
