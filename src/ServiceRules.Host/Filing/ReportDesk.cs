using System.Security.Cryptography.X509Certificates;
using Microsoft.Extensions.Logging;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.SafeWork;
using ServiceRules.Reporting.Reports;
using ServiceRules.Reporting.Signing;

namespace ServiceRules.Host.Filing;

/// <summary>Where reports are drawn, signed and filed: each assessment has one, and whoever asks again gets that one.</summary>
internal sealed partial class ReportDesk(
    OpenLedger ledger,
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
            return ledger.Read(log => ReportBasis.Of(log, id)) switch
            {
                ReportBasis.Issued issued => new ReportAnswer.Issued(issued.Report),
                ReportBasis.Judged judged => Issue(judged),
                ReportBasis.NotKept none => new ReportAnswer.NotKept(none.Why),
                _ => new ReportAnswer.NotFiled(),
            };
        }
        finally
        {
            turn.Release();
        }
    }

    /// <summary>The report of a period, drawn and signed, and not filed yet; null where there is no usable key.</summary>
    public byte[]? OfPeriod(SafeWorkPeriod period)
    {
        var at = clock.GetUtcNow();
        using var key = OpenKey(at);
        return key is null ? null : SafeWorkPeriodReport.Write(period, ReportTerms.Default, key, at, null);
    }

    /// <summary>The log's own proof of a report, which cannot stand inside it.</summary>
    public string Proof(FiledEntry report) => ledger.ProveWithEntry(report);

    /// <summary>The certificate that reports are signed with here, in PEM; null where there is no usable key.</summary>
    public string? Certificate()
    {
        using var key = OpenKey(clock.GetUtcNow());
        return key?.CertificatePem;
    }

    /// <summary>The certificates whose signatures count here: of the key of today and of the earlier ones.</summary>
    public IReadOnlyList<X509Certificate2> Trusted() =>
        [
            .. RetiredCertificates.In(keys),
            .. Certificate() is { } pem
                ? new[] { pem }.Select(text => X509Certificate2.CreateFromPem(text))
                : [],
        ];

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

    private ReportAnswer Issue(ReportBasis.Judged judged)
    {
        var at = clock.GetUtcNow();
        if (OpenKey(at) is not { } key)
        {
            return new ReportAnswer.NoKey();
        }

        using (key)
        {
            var proofs = ledger.Proofs(judged.Record, judged.Assessment);
            var pdf = JobReport.Write(judged.Assessed, ReportTerms.Default, key, at, null, proofs);
            return new FileReport(ledger).File(judged.Assessed, pdf, null) switch
            {
                FilingOutcome.Filed filed => new ReportAnswer.Issued(new(filed.Entries[^1].Entry, pdf)),
                FilingOutcome.Broken broken => throw new BrokenLogException(broken.Fault),
                FilingOutcome.Refused refused => new ReportAnswer.NotKept(refused.Refusal.ToString()),
                _ => throw new InvalidOperationException("an unknown outcome of filing"),
            };
        }
    }
}
