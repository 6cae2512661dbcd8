using System.Collections.Immutable;
using ServiceRules.Application.Ledger;
using ServiceRules.Domain.Site;
using ServiceRules.Formats.Assessments;
using ServiceRules.Formats.Registers;

namespace ServiceRules.Application.Submitting;

/// <summary>What of other records an assessment took into account, out of the context that is kept with it.</summary>
/// <param name="Records">What other records show that bears on the job.</param>
/// <param name="Elsewhere">Locks and people of the job at other machines.</param>
public sealed record AssessmentOthers(
    ImmutableArray<OtherRecord> Records,
    ImmutableArray<Elsewhere> Elsewhere
)
{
    /// <summary>Null where the assessment or its context is no longer kept, or cannot be read here.</summary>
    /// <exception cref="LedgerStoreException">One of them is gone, or other bytes now, and no erasure removed it.</exception>
    public static AssessmentOthers? Of(ILedgerReading log, FiledEntry assessment)
    {
        ArgumentNullException.ThrowIfNull(log);
        ArgumentNullException.ThrowIfNull(assessment);
        return
            log.Kept(assessment.Entry.Content) is { } bytes
            && AssessmentFormat.DigestsOf(bytes.Span) is { } digests
            && log.Kept(digests.Context) is { } kept
            && ContextFormat.Current.Read(kept).TryGet(out var context, out _)
            ? new(context.OtherRecords, context.Elsewhere)
            : null;
    }
}
