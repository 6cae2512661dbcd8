namespace ServiceRules.Application.Ledger;

/// <summary>A report as it was filed.</summary>
/// <param name="Entry">Its entry.</param>
/// <param name="Pdf">The file.</param>
public sealed record FiledReport(FiledEntry Entry, ReadOnlyMemory<byte> Pdf);
