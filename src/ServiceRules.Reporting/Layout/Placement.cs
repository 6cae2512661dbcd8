namespace ServiceRules.Reporting.Layout;

/// <summary>Where a finished drawing is put: scaled about its origin, then moved.</summary>
internal readonly record struct Placement(double Left, double Top, double Scale = 1)
{
    public double X(double x) => Left + (x * Scale);

    public double Y(double y) => Top + (y * Scale);
}
