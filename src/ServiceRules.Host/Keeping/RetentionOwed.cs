using ServiceRules.Application.Keeping;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Working;
using ServiceRules.Host.Working;

namespace ServiceRules.Host.Keeping;

/// <summary>The daily removal, where the site has said how long contents are kept.</summary>
internal sealed class RetentionOwed(OpenLedger ledger, RetentionWork work) : IOwedWork
{
    public IWork Work => work;

    public IEnumerable<string> Owed(bool isAll) =>
        isAll && ledger.Read(log => RetentionOfLog.Read(log)).Entry is not null ? [RetentionWork.Daily] : [];
}
