using System.Collections.Immutable;

namespace ServiceRules.Formats.Cases;

/// <summary>The cases beside the rules of one topic: `*.cases.json`.</summary>
/// <param name="Fixtures">The folder of the fixtures, relative to the file.</param>
/// <param name="Cases">The cases.</param>
public sealed record RuleCasesFile(string Fixtures, ImmutableArray<RuleCase> Cases);
