using ServiceRules.Application.Assessing;

namespace ServiceRules.Application.Reports;

/// <summary>Draws, attaches and signs: the finished file of one job, made once.</summary>
public interface IReportWriter
{
    /// <param name="assessed">What to report.</param>
    /// <param name="issuedAt">The issuing machine's clock; stamped on the file and its signature.</param>
    byte[] Write(Assessed assessed, DateTimeOffset issuedAt);
}
