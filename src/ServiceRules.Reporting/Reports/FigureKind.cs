namespace ServiceRules.Reporting.Reports;

/// <summary>What the figure of a comparison is.</summary>
internal enum FigureKind
{
    /// <summary>The quantity itself.</summary>
    Itself,

    /// <summary>How far it stands above another quantity.</summary>
    AboveOther,

    /// <summary>How far it is out of parallel.</summary>
    OutOfParallel,

    /// <summary>A difference between ends or units.</summary>
    Spread,

    /// <summary>Taper or barrel of a reel.</summary>
    Form,

    /// <summary>Twist of two rollers against one another.</summary>
    Twist,
}
