namespace ServiceRules.Application.Importing;

/// <summary>What a cell of a table holds.</summary>
public enum CellKind
{
    /// <summary>A text; empty where there is nothing.</summary>
    Text,

    /// <summary>A number of a workbook.</summary>
    Number,

    /// <summary>A number of a workbook that is shown as a day or a time.</summary>
    Moment,

    /// <summary>Something that is computed.</summary>
    Formula,

    /// <summary>A part of several cells merged into one.</summary>
    Merged,

    /// <summary>What a computation ended with that failed.</summary>
    Fault,
}
