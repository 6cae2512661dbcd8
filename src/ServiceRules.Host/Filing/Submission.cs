using System.Collections.Immutable;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Formats.Json;

namespace ServiceRules.Host.Filing;

/// <summary>What came of submitting a record.</summary>
internal abstract record Submission
{
    private Submission() { }

    /// <summary>It stands in the log with its assessment.</summary>
    public sealed record Stands(Assessed Assessed, FilingOutcome.Filed Filed) : Submission;

    /// <summary>It cannot be read, or contradicts itself.</summary>
    public sealed record Unreadable(ProblemReport Problems) : Submission;

    /// <summary>Something else stands there.</summary>
    public sealed record Conflict(FilingRefusal Refusal, ImmutableArray<JsonChange> Differences) : Submission;

    /// <summary>There is nothing to amend.</summary>
    public sealed record NothingToAmend : Submission;

    /// <summary>It is of another record than was named.</summary>
    public sealed record OtherRecord(string Id) : Submission;
}
