using System.Collections.Immutable;

namespace ServiceRules.Application.Rejudging;

/// <summary>What is to be judged again, and what came of it. Safe to share between threads.</summary>
public interface IRejudgingStore
{
    /// <summary>The last one by these rules; null: there was none.</summary>
    RejudgingJob? Find(string digest);

    /// <summary>Records that could not be judged, by their place in the log; of many the first that were met.</summary>
    ImmutableArray<NotJudged> Failures(long job, int most);

    /// <summary>Pages that are not done, the first ones first.</summary>
    ImmutableArray<RejudgingPage> Waiting(int most);

    /// <summary>Null: it is done, or there is none.</summary>
    RejudgingPage? Page(long job, long number);
}
