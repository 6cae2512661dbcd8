namespace ServiceRules.Application.Rejudging;

/// <summary>What came of records that were looked at.</summary>
/// <param name="Turned">Come out otherwise; a further assessment of each is filed.</param>
/// <param name="Unchanged">Come out as they did; nothing is filed.</param>
/// <param name="Passed">Judged by these rules already, or no newest version any more.</param>
/// <param name="Failed">Could not be judged.</param>
public sealed record RejudgingCounts(long Turned, long Unchanged, long Passed, long Failed)
{
    public long LookedAt => Turned + Unchanged + Passed + Failed;
}
