using ServiceRules.Formats.Json;

namespace ServiceRules.Application.Assessing;

/// <summary>What came of submitting a record.</summary>
public abstract record AssessOutcome
{
    private AssessOutcome() { }

    /// <summary>It was read and judged.</summary>
    public sealed record Judged(Assessed Assessed) : AssessOutcome;

    /// <summary>It is unreadable or contradicts itself; nothing was judged.</summary>
    public sealed record Refused(ProblemReport Problems) : AssessOutcome;
}
