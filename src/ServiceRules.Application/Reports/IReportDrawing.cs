using ServiceRules.Application.Assessing;
using ServiceRules.Application.SafeWork;

namespace ServiceRules.Application.Reports;

/// <summary>Draws a report anew from what it carries.</summary>
public interface IReportDrawing
{
    /// <summary>Whether the file shows what its attached documents give, in every mark, word and font.</summary>
    /// <param name="file">All of its bytes.</param>
    /// <param name="signed">What they say; intact.</param>
    /// <param name="attached">The attached documents, read.</param>
    /// <param name="proofs">What is attached about the log, or null.</param>
    ReportPoint HeldAgainst(
        ReadOnlyMemory<byte> file,
        SignedReport signed,
        Assessed attached,
        FilingProofs? proofs
    );

    /// <summary>The same for the report of a period.</summary>
    /// <param name="file">All of its bytes.</param>
    /// <param name="signed">What they say; intact.</param>
    /// <param name="attached">The attached jobs, judged again by the attached rules.</param>
    ReportPoint HeldAgainst(ReadOnlyMemory<byte> file, SignedReport signed, SafeWorkPeriod attached);
}
