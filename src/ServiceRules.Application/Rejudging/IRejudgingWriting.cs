using System.Collections.Immutable;

namespace ServiceRules.Application.Rejudging;

/// <summary>What is to be judged again, in the transaction of a filing: the head of the log is locked, and nobody else changes it.</summary>
public interface IRejudgingWriting
{
    /// <summary>The one that is not done; there is one at most.</summary>
    RejudgingJob? Running();

    /// <summary>Keeps one, and cuts the newest versions of all records into pages; where there are none it is done.</summary>
    /// <param name="job">Which; its number is given here.</param>
    RejudgingJob Begin(RejudgingJob job);

    /// <summary>Null: it is done, or there is none.</summary>
    RejudgingPage? Page(long job, long number);

    /// <summary>Counts what came of a page and takes it away; with the last one the job is done.</summary>
    /// <param name="page">The page. It is there.</param>
    /// <param name="counts">What came of it.</param>
    /// <param name="failures">What could not be judged; of many the first are kept.</param>
    /// <param name="at">When.</param>
    void Settle(
        RejudgingPage page,
        RejudgingCounts counts,
        ImmutableArray<NotJudged> failures,
        DateTimeOffset at
    );

    /// <summary>Ends one before it is done, and takes its pages away.</summary>
    void End(long job, DateTimeOffset at);
}
