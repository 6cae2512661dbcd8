using System.Collections.Immutable;

namespace ServiceRules.Reporting.Layout;

/// <summary>What a line must not break, unless it alone is wider than the line.</summary>
internal sealed record Word(ImmutableArray<Span> Pieces, WordLead Lead);
