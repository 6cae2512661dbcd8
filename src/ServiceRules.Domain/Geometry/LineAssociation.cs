namespace ServiceRules.Domain.Geometry;

/// <summary>How a straight line is laid through measured points; a result names the one it used.</summary>
public enum LineAssociation
{
    /// <summary>Between the two closest parallel lines that enclose all points (the minimax line of ISO 5459:2011).</summary>
    MinimumZone,

    /// <summary>With the least sum of squared distances.</summary>
    LeastSquares,
}
