namespace ServiceRules.Formats.Exports;

/// <summary>What kind of file a list is written to.</summary>
public enum ExportedForm
{
    /// <summary>A table as RFC 4180 has it.</summary>
    Csv,

    /// <summary>A JSON text for each row, each on a line of its own.</summary>
    Jsonl,

    /// <summary>A signed report; of safe work alone.</summary>
    Pdf,
}
