using Microsoft.Extensions.Logging;
using ServiceRules.Application.Ledger;
using ServiceRules.Reporting.Reports;
using ServiceRules.Reporting.Signing;

namespace ServiceRules.Host.Filing;

/// <summary>Where reports are drawn, signed and filed: each assessment has one, and whoever asks again gets that one.</summary>
internal sealed partial class ReportDesk(
    FilingDesk desk,
    string keys,
    string organisation,
    TimeProvider clock,
    ILogger<ReportDesk> log
) : IDisposable
{
    private readonly SemaphoreSlim turn = new(1, 1);

    public async Task<ReportAnswer> OfAsync(string id, CancellationToken stop)
    {
        // Two who ask at once for the same would file two.
        await turn.WaitAsync(stop);
        try
        {
            var (basis, proofs) = await desk.AskAsync(
                ledger =>
                    ledger.Read(log => ReportBasis.Of(log, id)) is var found
                    && found is ReportBasis.Judged judged
                        ? (found, ledger.Proofs(judged.Record, judged.Assessment))
                        : (found, null),
                stop
            );
            return basis switch
            {
                ReportBasis.Issued issued => new ReportAnswer.Issued(issued.Report),
                ReportBasis.Judged judged => await IssueAsync(judged, proofs!, stop),
                ReportBasis.NotKept none => new ReportAnswer.NotKept(none.Why),
                _ => new ReportAnswer.NotFiled(),
            };
        }
        finally
        {
            turn.Release();
        }
    }

    /// <summary>The log's own proof of a report, which cannot stand inside it.</summary>
    public Task<string> ProofAsync(FiledEntry report, CancellationToken stop) =>
        desk.AskAsync(ledger => ledger.ProveWithEntry(report), stop);

    /// <summary>The certificate that reports are signed with here, in PEM; null where there is no usable key.</summary>
    public string? Certificate()
    {
        using var key = OpenKey(clock.GetUtcNow());
        return key?.CertificatePem;
    }

    public void Dispose() => turn.Dispose();

    private SigningKey? OpenKey(DateTimeOffset at)
    {
        switch (SigningKeyFolder.OpenOrCreate(keys, organisation, at))
        {
            case SigningKeyOutcome.Usable { Key: var key }:
                return key;
            case SigningKeyOutcome.Refused refused:
                NoKey(log, refused.Reason);
                return null;
            default:
                throw new InvalidOperationException("an unknown outcome of opening a key");
        }
    }

    [LoggerMessage(Level = LogLevel.Error, Message = "there is no usable signing key: {Reason}")]
    private static partial void NoKey(ILogger logger, string reason);

    private async Task<ReportAnswer> IssueAsync(
        ReportBasis.Judged judged,
        Application.Reports.FilingProofs proofs,
        CancellationToken stop
    )
    {
        var at = clock.GetUtcNow();
        if (OpenKey(at) is not { } key)
        {
            return new ReportAnswer.NoKey();
        }

        using (key)
        {
            var pdf = JobReport.Write(judged.Assessed, ReportTerms.Default, key, at, null, proofs);
            var outcome = await desk.AskAsync(
                ledger => new FileReport(ledger).File(judged.Assessed, pdf, null),
                stop
            );
            return outcome switch
            {
                FilingOutcome.Filed filed => new ReportAnswer.Issued(new(filed.Entries[^1].Entry, pdf)),
                FilingOutcome.Broken broken => throw new BrokenLogException(broken.Fault),
                FilingOutcome.Refused refused => new ReportAnswer.NotKept(refused.Refusal.ToString()),
                _ => throw new InvalidOperationException("an unknown outcome of filing"),
            };
        }
    }
}
