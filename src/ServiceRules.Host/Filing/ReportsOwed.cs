using System.Globalization;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Working;
using ServiceRules.Formats.Ledger;
using ServiceRules.Host.Working;

namespace ServiceRules.Host.Filing;

/// <summary>Reports of what was filed since somebody first wanted them made ahead.</summary>
internal sealed class ReportsOwed(OpenLedger ledger, ReportWork work, IWorkMarks marks) : IOwedWork
{
    // A round is to end: the rest is for the next one.
    private const int Most = 1000;

    public IWork Work => work;

    public IEnumerable<string> Owed(bool isAll)
    {
        if (marks.Find(ReportWork.Name) is not { } from)
        {
            marks.Move(ReportWork.Name, ledger.Log.Head?.Size ?? 0);
            yield break;
        }

        var next = from;
        foreach (var stored in ledger.Log.Entries(from).Take(Most))
        {
            if (
                EntryReading.TryRead(stored, out var filed, out _)
                && filed.Entry.Kind is EntryKind.Assessment
            )
            {
                yield return filed.Index.ToString(CultureInfo.InvariantCulture);
            }

            next++;
        }

        // Behind what the queue has taken: after a stop between them some are asked for again, and stand already.
        if (next > from)
        {
            marks.Move(ReportWork.Name, next);
        }
    }
}
