using ServiceRules.Application.Working;
using ServiceRules.Host.Working;

namespace ServiceRules.Host.Due;

/// <summary>The look of each day.</summary>
internal sealed class DueOwed(DueWork work) : IOwedWork
{
    public IWork Work => work;

    public IEnumerable<string> Owed(bool isAll) => isAll ? [DueWork.Daily] : [];
}
