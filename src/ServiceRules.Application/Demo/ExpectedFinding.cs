using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Application.Demo;

/// <summary>A finding that must keep its subject from going out.</summary>
/// <param name="Rule">Identity text of the rule.</param>
/// <param name="Subject">What it must speak of.</param>
public sealed record ExpectedFinding(string Rule, Subject Subject);
