namespace ServiceRules.Formats.Imports;

/// <summary>What stands before the decimals of a figure that is written as text.</summary>
public enum DecimalMark
{
    /// <summary>A point.</summary>
    Point,

    /// <summary>A comma.</summary>
    Comma,
}
