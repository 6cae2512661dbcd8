using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Diagnostics;
using ServiceRules.Rules.Evaluation.Bench;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Checking;

/// <summary>A rule in itself: its check fits its scope and its quantity, and its lists name each thing once.</summary>
internal static class RuleFormCheck
{
    public static void Run(RuleLibrary library, Remarks remarks)
    {
        foreach (var rule in library.Rules)
        {
            Scope(rule, remarks);
            Quantities(rule, remarks);
            Lists(rule, remarks);
            Policy(rule, remarks);
            BasisCheck.Run(rule.Value.Basis, rule, "/basis", remarks);
        }
    }

    private static void Scope(Placed<Rule> rule, Remarks remarks)
    {
        var fitting = ScopeOf(rule.Value.Check);
        if (rule.Value.Scope is RuleScope.Programme && MayBeOfTheProgramme(rule.Value.Check))
        {
            if (rule.Value.Severity is not Severity.Advise)
            {
                remarks.Error(
                    DiagnosticCode.ProgrammeWeighs,
                    rule,
                    "/severity",
                    $"a rule on the programme keeps nothing from going out, and this one says `{FileWord.Of(rule.Value.Severity)}`",
                    "`advise`, or the scope `job`"
                );
            }
        }
        else if (rule.Value.Scope != fitting)
        {
            remarks.Error(
                DiagnosticCode.ScopeDoesNotFit,
                rule,
                "/scope",
                $"this check is judged on the {FileWord.Of(fitting)}, and the rule says `{FileWord.Of(rule.Value.Scope)}`",
                $"`{FileWord.Of(fitting)}`"
            );
        }
    }

    private static bool MayBeOfTheProgramme(Check check) =>
        check is Check.EnergyControl or Check.Recency or Check.Credibility;

    private static RuleScope ScopeOf(Check check) =>
        check switch
        {
            Check.Spread { Across: SpreadAcross.Units or SpreadAcross.AdjacentEnds } => RuleScope.Set,
            Check.RequiredEvent
            or Check.OrderOfEvents
            or Check.Protection
            or Check.EnergyControl
            or Check.Recency
            or Check.Credibility
            or Check.RecordPart => RuleScope.Job,
            _ => RuleScope.Unit,
        };

    private static void Quantities(Placed<Rule> rule, Remarks remarks)
    {
        foreach (var (member, quantity, isFit, accepted) in Asked(rule.Value.Check))
        {
            if (!isFit)
            {
                remarks.Error(
                    DiagnosticCode.QuantityDoesNotFit,
                    rule,
                    $"/check/{member}",
                    $"`{FileWord.Of(quantity)}` is not something that this check can judge",
                    accepted
                );
            }
        }
    }

    private static IEnumerable<(string Member, MeasuredQuantity Quantity, bool IsFit, string Accepted)> Asked(
        Check check
    )
    {
        const string lengths = "a quantity that is read as a length";
        return check switch
        {
            Check.LimitOnQuantity { Against: LimitSource.WornBelow } limit =>
            [
                (
                    "quantity",
                    limit.Quantity,
                    limit.Quantity is MeasuredQuantity.ReelDiameter,
                    "`reel-diameter`, the one that wears"
                ),
            ],
            Check.LimitOnQuantity limit => [("quantity", limit.Quantity, IsLength(limit.Quantity), lengths)],
            Check.ProceduralLimit procedural =>
            [
                (
                    "quantity",
                    procedural.Quantity,
                    procedural.Quantity
                        is MeasuredQuantity.Clearance
                            or MeasuredQuantity.BrushGap
                            or MeasuredQuantity.ShieldGap,
                    "`clearance`, `brush-gap` or `shield-gap`: what is set by feeler or by contact"
                ),
            ],
            Check.Contact contact =>
            [
                (
                    "quantity",
                    contact.Quantity,
                    contact.Quantity is MeasuredQuantity.Clearance or MeasuredQuantity.BrushGap,
                    "`clearance` or `brush-gap`: what may touch"
                ),
            ],
            Check.Spread spread => [("quantity", spread.Quantity, IsLength(spread.Quantity), lengths)],
            Check.Parallelism parallel =>
            [
                ("quantity", parallel.Quantity, IsLength(parallel.Quantity), lengths),
            ],
            Check.Relation relation =>
            [
                ("quantity", relation.Quantity, IsLength(relation.Quantity), lengths),
                (
                    "other",
                    relation.Other,
                    IsLength(relation.Other) && relation.Other != relation.Quantity,
                    "another quantity that is read as a length"
                ),
            ],
            Check.SoundCondition sound =>
            [
                (
                    "quantity",
                    sound.Quantity,
                    !IsLength(sound.Quantity) && sound.Quantity is not MeasuredQuantity.Attitude,
                    "`bearing-play`, `edge` or `guards`: what is judged by eye or hand"
                ),
            ],
            Check.StepObtained step =>
            [
                (
                    "quantity",
                    step.Quantity,
                    IsLength(step.Quantity) && AdjustedQuantity.FinelySetBy(step.Quantity) is not null,
                    "a quantity that an adjuster sets and that is read as a length"
                ),
            ],
            _ => [],
        };
    }

    private static bool IsLength(MeasuredQuantity quantity) =>
        quantity
            is not (
                MeasuredQuantity.BearingPlay
                or MeasuredQuantity.Attitude
                or MeasuredQuantity.Edge
                or MeasuredQuantity.Guards
            );

    private static void Lists(Placed<Rule> rule, Remarks remarks)
    {
        var when = rule.Value.When;
        Once(rule, "/when/tasks", when.Tasks, FileWord.Of, remarks);
        Once(rule, "/when/orRead", when.OrRead, FileWord.Of, remarks);
        Once(rule, "/when/sheets", when.Sheets, sheet => sheet, remarks);
        Once(rule, "/when/attachments", when.Attachments, FileWord.Of, remarks);
        Once(rule, "/when/areas", when.Areas, area => area, remarks);
        Once(rule, "/when/anyTurned", when.AnyTurned, FileWord.Of, remarks);
        Once(rule, "/when/anyRead", when.AnyRead, FileWord.Of, remarks);
        Once(rule, "/when/anyReadAlong", when.AnyReadAlong, FileWord.Of, remarks);
        switch (rule.Value.Check)
        {
            case Check.OrderOfWork check:
                Once(rule, "/check/order", check.Order, FileWord.Of, remarks);
                break;
            case Check.OrderOfEvents check:
                Once(rule, "/check/order", check.Order, FileWord.Of, remarks);
                break;
            case Check.RequiredEvent check:
                Once(rule, "/check/events", check.Events, FileWord.Of, remarks);
                break;
            default:
                break;
        }
    }

    private static void Once<T>(
        Placed<Rule> rule,
        string at,
        ImmutableArray<T> list,
        Func<T, string> word,
        Remarks remarks
    )
    {
        var seen = new HashSet<T>();
        for (var index = 0; index < list.Length; index++)
        {
            if (!seen.Add(list[index]))
            {
                remarks.Error(
                    DiagnosticCode.ListRepeats,
                    rule,
                    FormattableString.Invariant($"{at}/{index}"),
                    $"`{word(list[index])}` stands twice in this list",
                    "each once"
                );
            }
        }
    }

    private static void Policy(Placed<Rule> rule, Remarks remarks)
    {
        if (rule.Value is { Severity: Severity.Stop, Unproven: UnprovenPolicy.Advise })
        {
            remarks.Error(
                DiagnosticCode.StopLetsUnprovenThrough,
                rule,
                "/unproven",
                "someone could be hurt where this rule is not met, and `advise` lets out what was never proven",
                "`hold`, or `second-person`"
            );
        }
    }
}
