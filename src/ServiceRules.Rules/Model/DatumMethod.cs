namespace ServiceRules.Rules.Model;

/// <summary>How a datum line is fitted.</summary>
public enum DatumMethod
{
    /// <summary>By minimum zone.</summary>
    MinimumZone,

    /// <summary>By least squares.</summary>
    LeastSquares,
}
