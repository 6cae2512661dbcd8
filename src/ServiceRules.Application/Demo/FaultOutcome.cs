using System.Collections.Immutable;

namespace ServiceRules.Application.Demo;

/// <summary>Whether a seeded fault was found.</summary>
/// <param name="Judged">The job that carries it.</param>
/// <param name="Fault">The fault.</param>
/// <param name="Missed">What should have held or stopped and did not; empty: found.</param>
public sealed record FaultOutcome(
    JudgedDemoJob Judged,
    SeededFault Fault,
    ImmutableArray<ExpectedFinding> Missed
)
{
    public bool IsFound => Missed.IsEmpty;
}
