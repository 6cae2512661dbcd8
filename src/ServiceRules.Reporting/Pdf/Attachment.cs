namespace ServiceRules.Reporting.Pdf;

/// <summary>A JSON file carried inside the report, under a plain file name.</summary>
public sealed record Attachment(string Name, string Description, ReadOnlyMemory<byte> Content);
