using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Application.Demo;

/// <summary>A hold or stop that no seeded fault accounts for.</summary>
public sealed record UnexpectedFinding(JudgedDemoJob Judged, Finding Finding);
