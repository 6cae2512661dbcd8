using System.Collections.Immutable;

namespace ServiceRules.Reporting.Layout;

/// <summary>Something with its final place on a page, in points. All that a painter needs to know.</summary>
public abstract record Placed
{
    private Placed() { }

    internal abstract Placed Moved(Placement by);

    /// <summary>A run of characters in one style, starting at X on its baseline.</summary>
    public sealed record Text(double X, double Baseline, string Content, TextStyle Style, double Width)
        : Placed
    {
        internal override Placed Moved(Placement by) =>
            this with
            {
                X = by.X(X),
                Baseline = by.Y(Baseline),
                Style = by.Scale == 1 ? Style : Style with { Size = Style.Size * by.Scale },
                Width = Width * by.Scale,
            };
    }

    public sealed record Line(Point From, Point To, Stroke Stroke) : Placed
    {
        internal override Placed Moved(Placement by) =>
            new Line(From.Moved(by), To.Moved(by), Scaled(Stroke, by)!);
    }

    public sealed record Rectangle(Box Box, Ink? Fill, Stroke? Stroke, double Radius = 0) : Placed
    {
        internal override Placed Moved(Placement by) =>
            new Rectangle(Box.Moved(by), Fill, Scaled(Stroke, by), Radius * by.Scale);
    }

    public sealed record Ellipse(Box Box, Ink? Fill, Stroke? Stroke) : Placed
    {
        internal override Placed Moved(Placement by) => new Ellipse(Box.Moved(by), Fill, Scaled(Stroke, by));
    }

    /// <summary>A polygon when closed, else a polyline.</summary>
    public sealed record Path(ImmutableArray<Point> Points, bool Closed, Ink? Fill, Stroke? Stroke) : Placed
    {
        internal override Placed Moved(Placement by) =>
            this with
            {
                Points = [.. Points.Select(point => point.Moved(by))],
                Stroke = Scaled(Stroke, by),
            };
    }

    /// <summary>Marks that belong together, with their meaning and, for a figure, the same in words.</summary>
    public sealed record Group(
        StructureRole Role,
        Box Bounds,
        ImmutableArray<Placed> Children,
        string? Alternative = null
    ) : Placed
    {
        /// <summary>Told before and again here, such as the head of a table that goes on.</summary>
        public bool IsRepeated { get; init; }

        internal override Placed Moved(Placement by) =>
            this with
            {
                Bounds = Bounds.Moved(by),
                Children = [.. Children.Select(child => child.Moved(by))],
            };
    }

    /// <summary>Where the signature field goes; draws nothing.</summary>
    public sealed record SignatureBox(Box Box) : Placed
    {
        internal override Placed Moved(Placement by) => new SignatureBox(Box.Moved(by));
    }

    private static Stroke? Scaled(Stroke? stroke, Placement by) =>
        stroke is null || by.Scale == 1 ? stroke : stroke with { Width = stroke.Width * by.Scale };
}
