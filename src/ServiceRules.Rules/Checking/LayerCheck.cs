using System.Collections.Immutable;
using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Diagnostics;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Checking;

/// <summary>
/// A rule of a higher layer takes the place of the rule of the same identity below it, and may only tighten: apply to
/// more, weigh more, ask more. Loosening needs a dated waiver by another person, not an edit.
/// </summary>
internal static class LayerCheck
{
    public static void Run(RuleLibrary library, Remarks remarks)
    {
        var below = new Dictionary<string, Rule>(StringComparer.Ordinal);
        foreach (var layer in library.Packs.GroupBy(pack => pack.Pack.Layer).OrderBy(group => group.Key))
        {
            var rules = layer.SelectMany(pack => pack.Rules).ToList();
            foreach (var rule in rules)
            {
                if (below.TryGetValue(rule.Value.Id.Text, out var replaced))
                {
                    Compare(rule, replaced, remarks);
                }
            }

            foreach (var rule in rules)
            {
                below[rule.Value.Id.Text] = rule.Value;
            }
        }
    }

    private static void Compare(Placed<Rule> placed, Rule below, Remarks remarks)
    {
        foreach (var (at, what) in Loosened(placed.Value, below))
        {
            remarks.Error(
                DiagnosticCode.Loosens,
                placed,
                at,
                $"this rule {what} than rule `{below.Id}` of the layer below, whose place it takes",
                "at least what the layer below asks; a dated waiver by another person where it must be loosened"
            );
        }
    }

    /// <summary>In what a rule asks less than another, with the place of each; nothing: it asks at least as much.</summary>
    public static IEnumerable<(string At, string What)> Loosened(Rule rule, Rule below)
    {
        IEnumerable<(string At, bool Loosens, string What)> parts =
        [
            ("/scope", rule.Scope != below.Scope, "is judged on something else"),
            ("/severity", rule.Severity < below.Severity, "weighs less"),
            ("/unproven", Strictness(rule.Unproven) < Strictness(below.Unproven), "lets more out unproven"),
            ("/decision", IsWeaker(rule.Decision, below.Decision), "decides more generously"),
            (
                "/decision",
                GuardsMore(rule.Decision.By, below.Decision.By) && !HoldsUnproven(rule, below),
                "holds less, by a wider guard that makes a breach unproven where what is unproven weighs less than a breach,"
            ),
            ("/when", IsNarrower(rule.When, below.When), "applies to less"),
            ("/check", !CheckTightness.IsAtLeast(rule.Check, below.Check), "asks less, or something else"),
        ];
        return parts.Where(part => part.Loosens).Select(part => (part.At, part.What));
    }

    private static int Strictness(UnprovenPolicy policy) =>
        policy switch
        {
            UnprovenPolicy.Advise => 0,
            UnprovenPolicy.SecondPerson => 1,
            _ => 2,
        };

    private static bool IsWeaker(RuleDecision decision, RuleDecision below) =>
        decision.LimitItself < below.LimitItself
        || !(decision.By == below.By || GuardsMore(decision.By, below.By));

    /// <summary>Guards work both ways: what was a breach below and is unproven by a wider guard must weigh as much.</summary>
    private static bool HoldsUnproven(Rule rule, Rule below) =>
        below.Severity switch
        {
            Severity.Advise => true,
            Severity.Hold => rule.Unproven is UnprovenPolicy.Hold,
            _ => false,
        };

    /// <summary>Guards of one kind can be compared; what is decided in another way is not the same question.</summary>
    private static bool GuardsMore(DecisionRule rule, DecisionRule below) =>
        (rule, below) switch
        {
            (DecisionRule.Guarded, DecisionRule.Simple) => true,
            (DecisionRule.Guarded wide, DecisionRule.Guarded narrow) => wide.Factor > narrow.Factor,
            (DecisionRule.GuardedToRisk, DecisionRule.Simple) => true,
            (DecisionRule.GuardedToRisk wide, DecisionRule.GuardedToRisk narrow) => wide.Risk < narrow.Risk,
            _ => false,
        };

    private static bool IsNarrower(Applicability when, Applicability below) =>
        !Covers(when.Tasks, below.Tasks)
        || (!when.Tasks.IsEmpty && below.OrRead.Except(when.OrRead).Any())
        || !Covers(when.Sheets, below.Sheets)
        || !Covers(when.Areas, below.Areas)
        || !Covers(when.AnyTurned, below.AnyTurned)
        || !Covers(when.AnyRead, below.AnyRead)
        || !Covers(when.AnyReadAlong, below.AnyReadAlong)
        || when.Attachments.Except(below.Attachments).Any()
        || (when.Bedknife is not null && when.Bedknife != below.Bedknife)
        || (when.Place is not null && when.Place != below.Place)
        || (when.Isolation is not null && when.Isolation != below.Isolation)
        || (when.School is not null && when.School != below.School)
        || (when.Ground is not null && when.Ground != below.Ground)
        || (when.SheetStates is not null && when.SheetStates != below.SheetStates)
        || when.From > (below.From ?? DateOnly.MinValue)
        || when.Until < (below.Until ?? DateOnly.MaxValue);

    /// <summary>An empty list asks nothing, and so covers everything.</summary>
    private static bool Covers<T>(ImmutableArray<T> list, ImmutableArray<T> below) =>
        list.IsEmpty || (!below.IsEmpty && !below.Except(list).Any());
}
