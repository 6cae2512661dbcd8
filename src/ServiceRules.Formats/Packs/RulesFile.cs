using System.Collections.Immutable;
using ServiceRules.Rules.Model;

namespace ServiceRules.Formats.Packs;

/// <summary>The rules of one topic of a pack: one file beside others.</summary>
public sealed record RulesFile(ImmutableArray<Rule> Rules);
