namespace ServiceRules.Reporting.Layout;

/// <summary>A rectangle in points; y grows downwards.</summary>
public readonly record struct Box(double X, double Y, double Width, double Height)
{
    public double Right => X + Width;

    public double Bottom => Y + Height;

    internal Box Moved(Placement by) => new(by.X(X), by.Y(Y), Width * by.Scale, Height * by.Scale);
}
