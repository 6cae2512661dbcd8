using ServiceRules.Application.Rejudging;
using ServiceRules.Application.Working;
using ServiceRules.Host.Working;

namespace ServiceRules.Host.Rejudging;

/// <summary>Pages of the history that wait. Some are handed over at a time: a long history has more than a round should take.</summary>
internal sealed class RejudgingsOwed(IRejudgingStore store, RejudgingWork work) : IOwedWork
{
    private const int Ahead = 64;

    // Asked for by one round at a time.
    private (long Job, long Number) handed = (0, -1);

    public IWork Work => work;

    public IEnumerable<string> Owed(bool isAll)
    {
        if (isAll)
        {
            handed = (0, -1);
        }

        foreach (var page in store.Waiting(Ahead))
        {
            if ((page.Job.Number, page.Number).CompareTo(handed) > 0)
            {
                yield return RejudgingWork.NameOf(page);
                // Behind what the queue has taken.
                handed = (page.Job.Number, page.Number);
            }
        }
    }
}
