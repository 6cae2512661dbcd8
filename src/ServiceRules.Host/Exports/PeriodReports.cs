using System.Globalization;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.SafeWork;
using ServiceRules.Formats.Exports;
using ServiceRules.Formats.SafeWork;
using ServiceRules.Host.Filing;
using ServiceRules.Host.Sites;

namespace ServiceRules.Host.Exports;

/// <summary>Makes the signed report of a period: judged by the rules in force, kept as a file, and filed in the log, once.</summary>
internal sealed class PeriodReports(OpenLedger ledger, ServedSites sites, ReportDesks desks)
{
    /// <param name="request">Which period of which site.</param>
    /// <param name="id">Which export.</param>
    /// <param name="turn">The turn of whoever writes it.</param>
    /// <param name="file">Where it is kept.</param>
    /// <param name="stop">When to break off.</param>
    /// <exception cref="ExportBrokenOffException">There can be none, or somebody else makes it.</exception>
    public void Write(ExportRequest request, string id, string turn, PartsWriter file, CancellationToken stop)
    {
        var site =
            sites.Named(request.Filter.Site)
            ?? throw new ExportBrokenOffException("its site is not served here any more");
        var period = Judged(site, request.Filter.From!.Value, request.Filter.Until!.Value, stop);
        stop.ThrowIfCancellationRequested();
        var pdf =
            desks.Of(site.Name).OfPeriod(period)
            ?? throw new ExportBrokenOffException(
                "there is no usable signing key; the log of the service tells why"
            );
        file.Rows = period.Jobs.Length;
        file.Write(pdf);
        var digest = file.Last();
        // In one transaction: who dies before it leaves nothing in the log, who dies after it leaves nothing to do again.
        switch (
            new FilePeriodReport(ledger, sites.AreSeveral).File(
                period,
                pdf,
                log => log.Rows.EndExport(id, turn, period.Jobs.Length, digest)
            )
        )
        {
            case FilingOutcome.Filed:
                return;
            case FilingOutcome.Broken broken:
                throw new BrokenLogException(broken.Fault);
            case FilingOutcome.Refused refused:
                throw new ExportBrokenOffException(refused.Refusal.ToString());
            default:
                throw new InvalidOperationException("an unknown outcome of filing");
        }
    }

    private SafeWorkPeriod Judged(ServedSite site, DateOnly from, DateOnly until, CancellationToken stop)
    {
        var rules = site.Rules.Now();
        var records = new StoredRecords(ledger, site.Name, rules.Book, from, until, stop);
        switch (records.Count(SafeWorkJobsFormat.JobsMax))
        {
            case 0:
                throw new ExportBrokenOffException("no record that is filed here is of the period");
            case > SafeWorkJobsFormat.JobsMax:
                throw new ExportBrokenOffException(
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"more than {SafeWorkJobsFormat.JobsMax} records are of the period; accepted: a shorter one"
                    )
                );
        }

        var reading = new ReadPeriod(records, rules.Book, site.Registers, new Judge());
        return reading.Read(from, until, out _).TryGet(out var period, out var fault)
            ? period
            : throw new ExportBrokenOffException(fault);
    }
}
