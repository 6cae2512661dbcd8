namespace ServiceRules.Formats.Imports;

/// <summary>What a cell of a table becomes in a record.</summary>
public enum ValueForm
{
    /// <summary>A text as it stands in the cell.</summary>
    Text,

    /// <summary>A quantity: the figure in the cell and the unit that the mapping states.</summary>
    Figure,

    /// <summary>A plain number, such as a count of steps or a position.</summary>
    Number,

    /// <summary>True or false.</summary>
    Flag,

    /// <summary>A list of words or texts out of one cell.</summary>
    Words,

    /// <summary>A day.</summary>
    Day,

    /// <summary>A time of day on a day.</summary>
    Time,
}
