using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Vocabulary;

namespace ServiceRules.Formats.Assessments;

/// <summary>One rule's outcome with its evidence.</summary>
internal static class FindingShapes
{
    private static readonly JsonShape<FindingReason> ReasonWord = Shape.Choice<FindingReason>(
        "Why a finding came out as it did."
    );

    private static readonly JsonShape<string> Pointer = Shape.Text(
        0,
        200,
        "(/([^~/\\u0000-\\u001F]|~[01])*)*",
        "a JSON pointer into the record",
        "/units/0/entries/3"
    );

    private static readonly ObjectShape<Comparison> ComparisonObject = Shape.Object<Comparison>(
        "comparison",
        "One comparison of what is known at a place with what is asked there.",
        o =>
        {
            var quantity = o.Required("quantity", Choices.Quantity, "the quantity", c => c.Quantity);
            var place = o.Required("place", Terms.Title, "where", c => c.Place);
            var end = o.Defaulted(
                "atEnd",
                Shape.Flag,
                false,
                "whether it is an end that the line tells, and not a place that was read",
                c => c.IsAtEnd
            );
            var told = o.Optional(
                "toldIn",
                Choices.UnitSystem,
                "the units in which the statement tells it, those of its readings",
                c => c.ToldIn
            );
            var verdict = o.Required(
                "verdict",
                VerdictShapes.Verdict,
                "verdict at this place",
                c => c.Verdict
            );
            var reason = o.Required("reason", ReasonWord, "why", c => c.Reason);
            var value = Exact(o, "value", "best value", c => c.Value);
            var asRead = Exact(
                o,
                "asRead",
                "what was written down, where the value is that less the error that a zero check states",
                c => c.AsRead
            );
            var knownLower = Exact(o, "knownLower", "lower end of what is known", c => c.KnownLower);
            var knownUpper = Exact(o, "knownUpper", "upper end of what is known", c => c.KnownUpper);
            var uncertainty = Exact(
                o,
                "uncertainty",
                "expanded uncertainty of the value",
                c => c.Uncertainty
            );
            var budget = o.Optional(
                "budget",
                BudgetShapes.Budget,
                "what that uncertainty is made of; of what is no measured value there is none",
                c => c.Budget
            );
            var lower = Exact(o, "lowerLimit", "lower limit", c => c.LowerLimit);
            var upper = Exact(o, "upperLimit", "upper limit", c => c.UpperLimit);
            var acceptLower = Exact(o, "acceptLower", "lower end of the acceptance zone", c => c.AcceptLower);
            var acceptUpper = Exact(o, "acceptUpper", "upper end of the acceptance zone", c => c.AcceptUpper);
            var target = Exact(o, "target", "target", c => c.Target);
            var probability = o.Optional(
                "probability",
                Shape.Number(0, 1),
                "probability of conformance",
                c => c.Probability
            );
            var margin = Exact(
                o,
                "margin",
                "signed distance to the nearest limit: positive inside",
                c => c.Margin
            );
            return v => new Comparison
            {
                Quantity = v.Get(quantity),
                Place = v.Get(place),
                IsAtEnd = v.Get(end),
                ToldIn = v.Get(told),
                Verdict = v.Get(verdict),
                Reason = v.Get(reason),
                Value = v.Get(value),
                AsRead = v.Get(asRead),
                KnownLower = v.Get(knownLower),
                KnownUpper = v.Get(knownUpper),
                Uncertainty = v.Get(uncertainty),
                Budget = v.Get(budget),
                LowerLimit = v.Get(lower),
                UpperLimit = v.Get(upper),
                AcceptLower = v.Get(acceptLower),
                AcceptUpper = v.Get(acceptUpper),
                Target = v.Get(target),
                Probability = v.Get(probability),
                Margin = v.Get(margin),
            };
        }
    );

    public static ObjectShape<Finding> Finding { get; } =
        Shape.Object<Finding>(
            "finding",
            "One rule's outcome on one unit, on the set of units, or on the job.",
            o =>
            {
                var rule = o.Required("rule", Terms.Identity, "the rule", f => f.Rule);
                var subject = o.Required(
                    "subject",
                    VerdictShapes.Subject,
                    "what it speaks of",
                    f => f.Subject
                );
                var verdict = o.Required("verdict", VerdictShapes.Verdict, "the outcome", f => f.Verdict);
                var severity = o.Required(
                    "severity",
                    Choices.Severity,
                    "how serious a breach is",
                    f => f.Severity
                );
                var effect = o.Required(
                    "effect",
                    Shape.Choice<Effect>("What a finding does to the disposition."),
                    "what it does to the disposition of its subject",
                    f => f.Effect
                );
                var reason = o.Required("reason", ReasonWord, "why", f => f.Reason);
                var statement = o.Required(
                    "statement",
                    Shape.Prose(FormatLimits.Note),
                    "what, how much",
                    f => f.Statement
                );
                var comparisons = o.Items(
                    "comparisons",
                    ComparisonObject,
                    FormatLimits.Evidence,
                    "the numbers behind it, worst first",
                    f => f.Comparisons
                );
                var evidence = o.Items(
                    "evidence",
                    Pointer,
                    FormatLimits.Evidence,
                    "the entries of the record it rests on",
                    f => f.Evidence
                );
                var remedy = o.Optional("remedy", RemedyShapes.Remedy, "what to do about it", f => f.Remedy);
                var stillToDo = o.Items(
                    "stillToDo",
                    Terms.Note,
                    FormatLimits.Evidence,
                    "on a job that goes on, each thing that is still to be done",
                    f => f.StillToDo
                );
                var letOut = o.Optional("letOut", Terms.Note, "what it was let out under", f => f.LetOut);
                var notices = o.Items(
                    "notices",
                    Terms.Note,
                    FormatLimits.Evidence,
                    "things to know that do not change the verdict",
                    f => f.Notices
                );
                return v => new Finding
                {
                    Rule = v.Get(rule),
                    Subject = v.Get(subject),
                    Verdict = v.Get(verdict),
                    Severity = v.Get(severity),
                    Effect = v.Get(effect),
                    Reason = v.Get(reason),
                    Statement = v.Get(statement),
                    Comparisons = v.Get(comparisons),
                    Evidence = v.Get(evidence),
                    Remedy = v.Get(remedy),
                    StillToDo = v.Get(stillToDo),
                    LetOut = v.Get(letOut),
                    Notices = v.Get(notices),
                };
            }
        );

    private static Slot<Length?> Exact(
        ObjectMembers<Comparison> members,
        string name,
        string description,
        Func<Comparison, Length?> get
    ) => members.Optional(name, Terms.ExactLength, description, get);
}
