using System.Security.Cryptography.X509Certificates;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Reports;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Filing;
using ServiceRules.Reporting.Verifying;

namespace ServiceRules.Host.Verifying;

/// <summary>
/// Looks at reports that somebody holds: whether they are genuine by the certificates of this service, and whether they stand
/// in its log. Judging and drawing a report again is work, so that no more than two are looked at at once.
/// </summary>
internal sealed class VerificationDesk(OpenLedger ledger, ReportDesks reports, TimeProvider clock)
    : IDisposable
{
    private readonly SemaphoreSlim turns = new(2, 2);

    /// <param name="file">What somebody holds.</param>
    /// <param name="caller">Who asks: where it stands in the log is told of records of their sites.</param>
    /// <param name="stop">Stops waiting.</param>
    public async Task<VerificationAnswer> LookAsync(
        ReadOnlyMemory<byte> file,
        Caller caller,
        CancellationToken stop
    )
    {
        await turns.WaitAsync(stop);
        try
        {
            return Look(file, caller);
        }
        finally
        {
            turns.Release();
        }
    }

    public void Dispose() => turns.Dispose();

    private VerificationAnswer Look(ReadOnlyMemory<byte> file, Caller caller)
    {
        var trusted = reports.Trusted();
        try
        {
            return Look(file, caller, trusted);
        }
        finally
        {
            foreach (var certificate in trusted)
            {
                certificate.Dispose();
            }
        }
    }

    private VerificationAnswer Look(
        ReadOnlyMemory<byte> file,
        Caller caller,
        IReadOnlyList<X509Certificate2> trusted
    )
    {
        var reader = new HeldReader(
            new PdfReportReader(VerificationGrounds.Of(trusted) with { CheckedAt = clock.GetUtcNow() })
        );
        var verified = new VerifyReport(reader, new Judge(), new ReportRedrawing()).Verify(file);
        return VerificationAnswer.Of(verified, reader.Read is { } signed ? Here(file, signed, caller) : null);
    }

    private ToldPlace? Here(ReadOnlyMemory<byte> file, SignedReport signed, Caller caller) =>
        ledger.Read(
            (log, rows) =>
                ReportHere.Of(log, file, signed) is { } here
                    ? caller.SeesEverySite || SeenRecords.IsOfSites(log, rows, here.Subject, caller)
                        ? ToldPlace.Of(here)
                        : null
                    : PeriodHere.Of(log, rows, file, signed, caller.SeesSite) is { } period
                        ? ToldPlace.Of(period)
                        : null
        );

    /// <summary>Keeps what was read, so that the file need not be taken apart twice.</summary>
    private sealed class HeldReader(IReportReader inner) : IReportReader
    {
        public SignedReport? Read { get; private set; }

        SignedReport IReportReader.Read(ReadOnlyMemory<byte> file) => Read = inner.Read(file);
    }
}
