using System.Collections.Immutable;
using ServiceRules.Domain;

namespace ServiceRules.Rules.Model;

/// <summary>Where a text of one jurisdiction asks what a rule asks.</summary>
/// <param name="Rule">The rule.</param>
/// <param name="Rows">Rows of a published table that the rule answers; may be empty.</param>
/// <param name="Source">Title, body and year of the text.</param>
/// <param name="Clauses">Clauses as the text numbers them; at least one.</param>
/// <param name="Standing">How the text is known here.</param>
public sealed record Citation(
    Id<Rule> Rule,
    ImmutableArray<string> Rows,
    string Source,
    ImmutableArray<string> Clauses,
    CitationStanding Standing
);
