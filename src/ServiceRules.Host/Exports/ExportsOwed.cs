using ServiceRules.Application.Exporting;
using ServiceRules.Application.Working;
using ServiceRules.Host.Working;

namespace ServiceRules.Host.Exports;

/// <summary>Exports that are not finished, and those that are to be removed.</summary>
internal sealed class ExportsOwed(IExportStore store, ExportWork work) : IOwedWork
{
    public IWork Work => work;

    public IEnumerable<string> Owed(bool isAll) => store.Kept(unfinishedOnly: !isAll);
}
