using System.Collections.Immutable;
using ServiceRules.Application.Submitting;

namespace ServiceRules.Application.Importing;

/// <summary>What came of importing a table.</summary>
/// <param name="Records">What came of each record that was reached, in order.</param>
/// <param name="Stopped">What ended it before its end; null: it went through.</param>
public sealed record ImportOutcome(ImmutableArray<ImportedRecord> Records, SubmissionOutcome? Stopped)
{
    /// <summary>Whether every record stands.</summary>
    public bool IsWhole => Stopped is null && Records.All(record => record.Stored is not null);
}
