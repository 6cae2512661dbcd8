using System.Globalization;
using ServiceRules.Application.Library;
using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Checking;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.RuleCases.Mutation;

/// <summary>A rule with each condition dropped, each effect softened, its decision loosened and its own limits moved.</summary>
internal static class RuleMutants
{
    public static IEnumerable<Mutant> Of(LoadedRules rules, Placed<Rule> placed) =>
        Conditions(rules, placed)
            .Concat(Limits(rules, placed))
            .Concat(Decisions(rules, placed))
            .Concat(Effects(rules, placed));

    private static IEnumerable<Mutant> Conditions(LoadedRules rules, Placed<Rule> placed)
    {
        var rule = placed.Value;
        foreach (var part in AskedParts.Of(rule.When))
        {
            // Where every sheet of the folder answers yes, nobody could tell.
            if (AskedParts.CanFail(rule.When, part, rules.Book))
            {
                yield return Made(
                    rules,
                    placed,
                    MutationKind.ConditionDropped,
                    $"/when/{AskedParts.Word(part)}",
                    $"when/{AskedParts.Word(part)} dropped",
                    rule with
                    {
                        When = AskedParts.Without(rule.When, part),
                    }
                ) with
                {
                    Dropped = part,
                };
            }
        }

        if (rule.Check is Check.RequiredEvent { Needs: not null } required)
        {
            yield return Made(
                rules,
                placed,
                MutationKind.ConditionDropped,
                "/check/needs",
                "check/needs dropped",
                rule with
                {
                    Check = required with { Needs = null },
                }
            );
        }
    }

    private static IEnumerable<Mutant> Limits(LoadedRules rules, Placed<Rule> placed)
    {
        var rule = placed.Value;
        return rule.Check switch
        {
            Check.Relation relation => Nudge
                .Of(relation.Allowance)
                .Select(moved =>
                    Made(
                        rules,
                        placed,
                        MutationKind.LimitMoved,
                        "/check/allowance",
                        $"allowance {relation.Allowance} -> {moved}",
                        rule with
                        {
                            Check = relation with { Allowance = moved },
                        }
                    )
                ),
            Check.Clip clip => Nudge
                .Of(clip.Ratio)
                .Select(moved =>
                    Made(
                        rules,
                        placed,
                        MutationKind.LimitMoved,
                        "/check/ratio",
                        string.Create(CultureInfo.InvariantCulture, $"ratio {clip.Ratio} -> {moved}"),
                        rule with
                        {
                            Check = clip with { Ratio = moved },
                        }
                    )
                ),
            _ => [],
        };
    }

    private static IEnumerable<Mutant> Decisions(LoadedRules rules, Placed<Rule> placed)
    {
        var rule = placed.Value;
        if (!IsMeasured(rule.Check))
        {
            yield break;
        }

        if (rule.Decision.By is not DecisionRule.Simple)
        {
            yield return Made(
                rules,
                placed,
                MutationKind.DecisionLoosened,
                "/decision",
                "decision -> simple",
                rule with
                {
                    Decision = rule.Decision with { By = DecisionRule.Unguarded },
                }
            );
        }

        if (rule.Decision.LimitItself is LimitItself.Excluded)
        {
            yield return Made(
                rules,
                placed,
                MutationKind.DecisionLoosened,
                "/decision/limitItself",
                "limitItself excluded -> permitted",
                rule with
                {
                    Decision = rule.Decision with { LimitItself = LimitItself.Permitted },
                }
            );
        }
    }

    private static IEnumerable<Mutant> Effects(LoadedRules rules, Placed<Rule> placed)
    {
        var rule = placed.Value;
        var severity = rule.Severity switch
        {
            Severity.Stop => Severity.Hold,
            Severity.Hold => Severity.Advise,
            _ => (Severity?)null,
        };
        if (severity is { } lighter && ReachableVerdicts.Of(rule.Check).Contains(Verdict.NotMet))
        {
            yield return Made(
                rules,
                placed,
                MutationKind.EffectSoftened,
                "/severity",
                $"severity {FileWords.Of(rule.Severity)} -> {FileWords.Of(lighter)}",
                rule with
                {
                    Severity = lighter,
                }
            );
        }

        if (rule.Severity is Severity.Advise || !ReachableVerdicts.Of(rule.Check).Contains(Verdict.Unproven))
        {
            yield break;
        }

        var policies = rule.Unproven switch
        {
            UnprovenPolicy.Hold => (UnprovenPolicy[])[UnprovenPolicy.SecondPerson, UnprovenPolicy.Advise],
            UnprovenPolicy.SecondPerson => [UnprovenPolicy.Advise],
            _ => [],
        };
        foreach (var policy in policies)
        {
            yield return Made(
                rules,
                placed,
                MutationKind.EffectSoftened,
                "/unproven",
                $"unproven {FileWords.Of(rule.Unproven)} -> {FileWords.Of(policy)}",
                rule with
                {
                    Unproven = policy,
                }
            );
        }
    }

    private static bool IsMeasured(Check check) =>
        check
            is Check.LimitOnQuantity
                or Check.Spread
                or Check.Parallelism
                or Check.ReelForm
                or Check.Twist
                or Check.Relation
                or Check.Clip;

    private static Mutant Made(
        LoadedRules rules,
        Placed<Rule> placed,
        MutationKind kind,
        string pointer,
        string what,
        Rule changed
    ) =>
        new(kind, changed.Id.Text, what, rules.PlaceOf(placed, pointer))
        {
            Was = placed.Value,
            Rule = changed,
        };
}
