using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Rules.Checking;

/// <summary>What a case promises: that a rule comes out so on some record.</summary>
/// <param name="Rule">Identity text of the rule.</param>
/// <param name="Expect">The verdict.</param>
public sealed record ExpectedVerdict(string Rule, Verdict Expect);
