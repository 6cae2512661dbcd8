using ServiceRules.Application.Rejudging;

namespace ServiceRules.Host.Rejudging;

/// <summary>How far judging the stored history again is.</summary>
/// <param name="Digest">Names the packs and sheets that judge.</param>
/// <param name="State">running; done; or ended, where other rules were put in force before it was done.</param>
/// <param name="Records">Records that were stored when it began, each by its newest version.</param>
/// <param name="LookedAt">How many were looked at.</param>
/// <param name="Turned">How many come out otherwise: a further assessment of each is filed.</param>
/// <param name="Unchanged">How many come out as they did: nothing is filed.</param>
/// <param name="PassedOver">How many were judged by these rules already, or have no newest version any more.</param>
/// <param name="Failed">How many could not be judged.</param>
/// <param name="Failures">The first hundred of these, with why.</param>
/// <param name="BegunBy">Who began it, as acts name them.</param>
/// <param name="BegunAt">When.</param>
/// <param name="Reason">Why, where that was said.</param>
/// <param name="EndedAt">When it was done, or ended.</param>
internal sealed record ToldRejudging(
    string Digest,
    string State,
    long Records,
    long LookedAt,
    long Turned,
    long Unchanged,
    long PassedOver,
    long Failed,
    IReadOnlyList<ToldRejudging.Failure> Failures,
    string BegunBy,
    DateTimeOffset BegunAt,
    string? Reason,
    DateTimeOffset? EndedAt
)
{
    private const int FailuresMost = 100;

    public static ToldRejudging Of(RejudgingJob job, IRejudgingStore store) =>
        new(
            job.Digest,
            job.State switch
            {
                RejudgingState.Running => "running",
                RejudgingState.Done => "done",
                _ => "ended",
            },
            job.Records,
            job.Counts.LookedAt,
            job.Counts.Turned,
            job.Counts.Unchanged,
            job.Counts.Passed,
            job.Counts.Failed,
            job.Counts.Failed == 0
                ? []
                :
                [
                    .. store
                        .Failures(job.Number, FailuresMost)
                        .Select(one => new Failure(one.Record, one.Entry, one.Why)),
                ],
            job.By,
            job.BegunAt,
            job.Reason,
            job.EndedAt
        );

    /// <summary>A record that could not be judged.</summary>
    /// <param name="Record">The record.</param>
    /// <param name="Entry">Its newest version in the log.</param>
    /// <param name="Why">Why.</param>
    internal sealed record Failure(string Record, long Entry, string Why);
}
