using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Vocabulary;
using ServiceRules.Rules.Model;

namespace ServiceRules.Formats.Packs;

/// <summary>Where a text of one jurisdiction asks what a rule asks.</summary>
internal static class CitationShapes
{
    public static ObjectShape<Citation> Citation { get; } =
        Shape.Object<Citation>(
            "citation",
            "Where a text of one jurisdiction asks what a rule asks.",
            o =>
            {
                var rule = o.Required("rule", Terms.Id<Rule>(), "the rule", c => c.Rule);
                var rows = o.Items(
                    "rows",
                    Terms.Identity,
                    FormatLimits.Words,
                    "rows of a published table that the rule answers",
                    c => c.Rows
                );
                var source = o.Required(
                    "source",
                    Terms.Sentence,
                    "title, body and year of the text",
                    c => c.Source
                );
                var clauses = o.Required(
                    "clauses",
                    Shape.List(Terms.Title, 1, FormatLimits.Words),
                    "clauses as the text numbers them",
                    c => c.Clauses
                );
                var standing = o.Required(
                    "standing",
                    Shape.Choice<CitationStanding>("How a cited text is known."),
                    "how the text is known to whoever wrote this",
                    c => c.Standing
                );
                return v => new Citation(
                    v.Get(rule),
                    v.Get(rows),
                    v.Get(source),
                    v.Get(clauses),
                    v.Get(standing)
                );
            }
        );
}
