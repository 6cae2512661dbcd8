namespace ServiceRules.Formats.Exports;

/// <summary>A list that can be written to a file.</summary>
public enum ExportedList
{
    /// <summary>Records.</summary>
    Records,

    /// <summary>Units, visit by visit.</summary>
    Units,

    /// <summary>Findings.</summary>
    Findings,

    /// <summary>Records with their assessments, as they are kept.</summary>
    Documents,

    /// <summary>What the records of a period show of safe work, as a signed report.</summary>
    SafeWork,
}
