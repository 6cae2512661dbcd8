namespace ServiceRules.Reporting.Layout;

/// <summary>A position in points; y grows downwards.</summary>
public readonly record struct Point(double X, double Y)
{
    internal Point Moved(Placement by) => new(by.X(X), by.Y(Y));
}
