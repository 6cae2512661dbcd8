using ServiceRules.Application.Assessing;
using ServiceRules.Application.Reports;
using ServiceRules.Application.SafeWork;
using ServiceRules.Reporting.Pdf;
using ServiceRules.Reporting.Reports;
using ServiceRules.Reporting.Signing;
using ServiceRules.Reporting.Verifying.Drawn;

namespace ServiceRules.Reporting.Verifying;

/// <summary>
/// Draws a report anew from its attached documents, the certificate in its signature and the time it states, and holds
/// the file against that. A signer can sign anything; this finds pages that say other than the evidence behind them.
/// </summary>
public sealed class ReportRedrawing : IReportDrawing
{
    /// <summary>A file drawn anew: from what was found, what is said about its signature, on at most so many pages.</summary>
    private delegate byte[] Again(DrawnFile found, SignatureStatement statement, int pagesMax);

    public ReportPoint HeldAgainst(
        ReadOnlyMemory<byte> file,
        SignedReport signed,
        Assessed attached,
        FilingProofs? proofs
    ) =>
        HeldAgainst(
            file,
            signed,
            (found, statement, pagesMax) =>
                found.IsOfSafeWork
                    ? SafeWorkReport.DrawAnew(attached, ReportTerms.Default, statement, proofs, pagesMax)
                    : JobReport.DrawAnew(attached, ReportTerms.Default, statement, proofs, pagesMax)
        );

    public ReportPoint HeldAgainst(ReadOnlyMemory<byte> file, SignedReport signed, SafeWorkPeriod attached) =>
        HeldAgainst(
            file,
            signed,
            (_, statement, pagesMax) =>
                SafeWorkPeriodReport.DrawAnew(attached, ReportTerms.Default, statement, pagesMax)
        );

    private static ReportPoint HeldAgainst(ReadOnlyMemory<byte> file, SignedReport signed, Again again)
    {
#pragma warning disable CA1031 // Whatever goes wrong while drawing what a stranger signed means "does not hold".
        try
        {
            return Held(file, signed, again);
        }
        catch (Exception problem)
        {
            return ReportPoint.Failed(VerifyReport.Drawn, $"cannot be drawn anew: {problem.Message}");
        }
#pragma warning restore CA1031
    }

    private static ReportPoint Held(ReadOnlyMemory<byte> bytes, SignedReport signed, Again again)
    {
        if (signed is not { Certificate: { } certificate, SignedAt: { } signedAt })
        {
            return new ReportPoint(
                VerifyReport.Drawn,
                PointResult.NotReached,
                "not looked at: the signature names no certificate or no time"
            );
        }
        var (found, fault) = DrawnFile.Read(bytes);
        if (found?.Pages() is not { } pages)
        {
            return ReportPoint.Failed(VerifyReport.Drawn, fault ?? "the pages are not in one plain list");
        }
        if (found.DrawnBy != (DrawingVersion.Creator, DrawingVersion.Producer))
        {
            return new ReportPoint(VerifyReport.Drawn, PointResult.NotEstablished, OfOtherVersion(found));
        }
        var (drawn, broken) = DrawnFile.Read(
            again(found, new SignatureStatement(certificate, signedAt, signed.TimestampAskedOf), pages.Count)
        );
        if (drawn is null)
        {
            throw new InvalidOperationException(broken);
        }
        return DrawnComparison.Fault(found, drawn) is { } difference
            ? ReportPoint.Failed(VerifyReport.Drawn, difference)
            : ReportPoint.Passed(
                VerifyReport.Drawn,
                $"drawing the attached documents again gives the same {Counted(pages.Count)}, mark by mark"
            );
    }

    private static string OfOtherVersion(DrawnFile found)
    {
        var (creator, producer) = found.DrawnBy;
        return $"not established: drawn by `{Plain(creator)}` with `{Plain(producer)}`, this program is "
            + $"`{DrawingVersion.Creator}` with `{DrawingVersion.Producer}`; only the version that drew the pages can say "
            + $"whether they follow from the attached documents: verify with that of `{Plain(creator)}` (docs/CHANGELOG.md tells which)";
    }

    /// <summary>A signer can write anything there, and it goes to a screen.</summary>
    private static string Plain(string? told) =>
        PlainAscii.Of(told is { Length: > 80 } ? told[..80] : told ?? "");

    private static string Counted(int pages) => pages == 1 ? "page" : $"{pages} pages";
}
