namespace ServiceRules.Rules.Model;

/// <summary>Across what a spread is taken.</summary>
public enum SpreadAcross
{
    /// <summary>Between the two ends of one unit, extrapolated.</summary>
    Sides,

    /// <summary>Between the units of one machine (mid-width values).</summary>
    Units,

    /// <summary>Between the right end of a unit and the left end of its right-hand neighbour.</summary>
    AdjacentEnds,
}
