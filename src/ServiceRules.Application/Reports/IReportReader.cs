namespace ServiceRules.Application.Reports;

/// <summary>Establishes what can be known of a report from its bytes alone.</summary>
public interface IReportReader
{
    SignedReport Read(ReadOnlyMemory<byte> file);
}
