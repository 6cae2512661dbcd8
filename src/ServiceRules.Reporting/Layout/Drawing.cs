using System.Collections.Immutable;

namespace ServiceRules.Reporting.Layout;

/// <summary>A sheet to draw on, in points from its top left corner, that becomes a <see cref="Picture"/>.</summary>
public sealed class Drawing(ITextMeasure measure, double width, double height)
{
    private readonly ImmutableArray<Placed>.Builder _items = ImmutableArray.CreateBuilder<Placed>();

    public double Width => width;

    public double Height => height;

    public void Line(double fromX, double fromY, double toX, double toY, Stroke stroke) =>
        _items.Add(new Placed.Line(new Point(fromX, fromY), new Point(toX, toY), stroke));

    public void Rectangle(Box box, Ink? fill, Stroke? stroke = null, double radius = 0) =>
        _items.Add(new Placed.Rectangle(box, fill, stroke, radius));

    public void Circle(Point centre, double radius, Ink? fill, Stroke? stroke = null) =>
        _items.Add(
            new Placed.Ellipse(
                new Box(centre.X - radius, centre.Y - radius, 2 * radius, 2 * radius),
                fill,
                stroke
            )
        );

    public void Polygon(ImmutableArray<Point> points, Ink? fill, Stroke? stroke = null) =>
        _items.Add(new Placed.Path(points, Closed: true, fill, stroke));

    public void Polyline(ImmutableArray<Point> points, Stroke stroke) =>
        _items.Add(new Placed.Path(points, Closed: false, null, stroke));

    /// <summary>A circular arc; degrees clockwise from three o'clock.</summary>
    public void Arc(Point centre, double radius, double fromDegrees, double toDegrees, Stroke stroke)
    {
        var steps = Math.Max(2, (int)Math.Ceiling(Math.Abs(toDegrees - fromDegrees) / 4));
        var points = Enumerable
            .Range(0, steps + 1)
            .Select(step => double.DegreesToRadians(fromDegrees + ((toDegrees - fromDegrees) * step / steps)))
            .Select(angle => new Point(
                centre.X + (radius * Math.Cos(angle)),
                centre.Y + (radius * Math.Sin(angle))
            ));
        Polyline([.. points], stroke);
    }

    /// <summary>
    /// One line of text whose anchor (left end, middle or right end of its baseline) is at the point given. Text that
    /// would be wider than <paramref name="widest"/> is set smaller, never cut.
    /// </summary>
    public void Text(
        double x,
        double baseline,
        string content,
        TextStyle style,
        Align anchor = Align.Left,
        double? widest = null
    )
    {
        var visible = VisibleText.Of(content, style.Face, measure).ReplaceLineEndings(" ").Replace('\t', ' ');
        var natural = measure.Width(visible, style.Face, style.Size);
        var limit = Math.Min(widest ?? width, width);
        var scale = natural > limit ? limit / natural : 1;
        var used = scale < 1 ? style with { Size = style.Size * scale } : style;
        var wide = natural * scale;
        var left = anchor switch
        {
            Align.Centre => x - (wide / 2),
            Align.Right => x - wide,
            _ => x,
        };
        left = Math.Clamp(left, 0, Math.Max(0, width - wide));
        _items.Add(new Placed.Text(left, baseline, visible, used, wide));
    }

    /// <summary>How wide a text would be, for what must stand beside it.</summary>
    public double WidthOf(string content, TextStyle style) =>
        measure.Width(VisibleText.Of(content, style.Face, measure), style.Face, style.Size);

    /// <summary>The drawing as a figure, told in words for those who hear it.</summary>
    public Picture AsFigure(string alternative) => new(width, height, _items.ToImmutable(), alternative);

    /// <summary>The same without its empty top.</summary>
    public Picture AsFigureBelow(double top, string alternative) =>
        new(width, height - top, [.. _items.Select(item => item.Moved(new Placement(0, -top)))], alternative);

    /// <summary>The drawing as decoration; it may hold no text.</summary>
    public Picture AsDecoration()
    {
        if (_items.Any(item => item is Placed.Text))
        {
            throw new InvalidOperationException("decoration must not carry text");
        }
        return new Picture(width, height, _items.ToImmutable(), null);
    }
}
