using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Explaining;

/// <summary>One statement of a rule, with where it stands.</summary>
/// <param name="Rule">The rule as stated there.</param>
/// <param name="Pack">The pack.</param>
/// <param name="File">The file, relative to the folder of rules.</param>
/// <param name="Pointer">Where in the file, as a JSON pointer.</param>
public sealed record StandingRule(Rule Rule, RulePack Pack, string File, string Pointer);
