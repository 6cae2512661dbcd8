namespace ServiceRules.Formats.Imports;

/// <summary>What stands between the cells of a CSV file.</summary>
public enum CellSeparator
{
    /// <summary>A comma.</summary>
    Comma,

    /// <summary>A semicolon.</summary>
    Semicolon,

    /// <summary>A tab.</summary>
    Tab,
}
