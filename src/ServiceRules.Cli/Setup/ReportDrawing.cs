using ServiceRules.Application.Reports;
using ServiceRules.Reporting.Signing;
using ServiceRules.Reporting.Timestamping;

namespace ServiceRules.Cli.Setup;

/// <summary>Draws and signs a report.</summary>
/// <param name="of">What it tells.</param>
/// <param name="signer">Who signs.</param>
/// <param name="at">The time it states.</param>
/// <param name="authority">Who stamps the signature, or null.</param>
/// <param name="proofs">What is proven of a log, or null.</param>
internal delegate byte[] ReportDrawing<in T>(
    T of,
    IReportSigner signer,
    DateTimeOffset at,
    ITimestampAuthority? authority,
    FilingProofs? proofs
);
