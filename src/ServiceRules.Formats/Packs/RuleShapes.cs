using ServiceRules.Domain;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Vocabulary;
using ServiceRules.Rules.Model;

namespace ServiceRules.Formats.Packs;

/// <summary>One declared requirement.</summary>
internal static class RuleShapes
{
    private static readonly JsonShape<Id<Rule>> Identity = Shape
        .Text(1, 64, "[a-z][a-z0-9]*(-[a-z0-9]+)*", "small letters and digits joined by hyphens")
        .As(text => new Id<Rule>(text), rule => rule.Text);

    /// <summary>A rule in force: layers of a rule book may state the same rule.</summary>
    public static ObjectShape<Rule> Rule { get; } = With(Identity);

    /// <summary>A rule in the file that states it, once.</summary>
    public static ObjectShape<Rule> NewRule { get; } = With(Identity.Declares("rule", rule => rule.Text));

    private static ObjectShape<Rule> With(JsonShape<Id<Rule>> identity) =>
        Shape.Object<Rule>(
            "rule",
            "One declared requirement: to whom it applies, what is checked, and what follows.",
            o =>
            {
                var id = o.Required("id", identity, "its identity, stable for ever", r => r.Id);
                var title = o.Required("title", Terms.Title, "short title", r => r.Title);
                var requirement = o.Required(
                    "requirement",
                    Terms.Sentence,
                    "the requirement in plain words",
                    r => r.Requirement
                );
                var when = o.Optional(
                    "when",
                    ApplicabilityShapes.When,
                    "when it applies; left out: always",
                    r => r.When == Applicability.Always ? null : r.When
                );
                var scope = o.Required(
                    "scope",
                    Shape.Choice<RuleScope>("On what a rule is judged."),
                    "on what it is judged",
                    r => r.Scope
                );
                var check = o.Required("check", CheckShapes.Check, "the check", r => r.Check);
                var decision = o.Defaulted(
                    "decision",
                    DecisionShapes.Decision,
                    RuleDecision.Guarded,
                    "how a measured value is decided against a limit",
                    r => r.Decision
                );
                var severity = o.Required(
                    "severity",
                    Choices.Severity,
                    "how serious a breach is: stop, someone could be hurt; hold; advise",
                    r => r.Severity
                );
                var unproven = o.Defaulted(
                    "unproven",
                    Shape.Choice<UnprovenPolicy>("What a rule does when it cannot be decided."),
                    UnprovenPolicy.Hold,
                    "what it does when it cannot be decided",
                    r => r.Unproven
                );
                var basis = o.Required("basis", SharedShapes.Basis, "what it rests on", r => r.Basis);
                var advice = o.Required(
                    "advice",
                    Terms.Sentence,
                    "what to do, in plain words, when it is not met or unproven",
                    r => r.Advice
                );
                return v => new Rule
                {
                    Id = v.Get(id),
                    Title = v.Get(title),
                    Requirement = v.Get(requirement),
                    When = v.Get(when) ?? Applicability.Always,
                    Scope = v.Get(scope),
                    Check = v.Get(check),
                    Decision = v.Get(decision),
                    Severity = v.Get(severity),
                    Unproven = v.Get(unproven),
                    Basis = v.Get(basis),
                    Advice = v.Get(advice),
                };
            }
        );
}
