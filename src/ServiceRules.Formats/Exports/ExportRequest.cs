namespace ServiceRules.Formats.Exports;

/// <summary>Which list is to be written to a file, as what, and which rows of it.</summary>
public sealed record ExportRequest(ExportedList What, ExportedForm As, ExportedRows Filter);
