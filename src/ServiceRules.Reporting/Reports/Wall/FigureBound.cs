namespace ServiceRules.Reporting.Reports.Wall;

/// <summary>What a figure of a sheet bounds.</summary>
internal enum FigureBound
{
    /// <summary>Nothing below it: rounded up.</summary>
    AtLeast,

    /// <summary>Nothing above it: rounded down.</summary>
    AtMost,

    /// <summary>Aimed at, or the thickness of a feeler: rounded to the nearest.</summary>
    Nominal,
}
