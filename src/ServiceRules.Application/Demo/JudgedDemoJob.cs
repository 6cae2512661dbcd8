using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Application.Demo;

/// <summary>A demo job and what the rules made of it.</summary>
public sealed record JudgedDemoJob(DemoJob Job, Assessment Assessment);
