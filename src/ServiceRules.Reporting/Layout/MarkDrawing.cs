using System.Collections.Immutable;

namespace ServiceRules.Reporting.Layout;

/// <summary>Draws a <see cref="Mark"/> in a square of the given side.</summary>
public static class MarkDrawing
{
    public static void Put(Drawing drawing, Mark mark, Box square, Ink ink, Ink paper)
    {
        var pen = new Pen(drawing, square, ink, paper);
        switch (mark)
        {
            case Mark.In:
                pen.Disc();
                pen.Stroke(paper, (0.26, 0.53), (0.43, 0.69), (0.75, 0.33));
                break;
            case Mark.Out:
                pen.Square();
                pen.Stroke(paper, (0.28, 0.28), (0.72, 0.72));
                pen.Stroke(paper, (0.28, 0.72), (0.72, 0.28));
                break;
            case Mark.NotProven:
                pen.Ring();
                pen.Stroke(
                    ink,
                    (0.36, 0.40),
                    (0.40, 0.30),
                    (0.50, 0.26),
                    (0.61, 0.30),
                    (0.64, 0.40),
                    (0.50, 0.58)
                );
                pen.Dot(ink, 0.50, 0.74);
                break;
            case Mark.DoesNotApply:
                pen.Stroke(ink, (0.2, 0.5), (0.8, 0.5));
                break;
            case Mark.Stop:
                pen.Octagon();
                pen.Stroke(paper, (0.25, 0.5), (0.75, 0.5));
                break;
            case Mark.Caution:
                pen.Triangle();
                pen.Stroke(paper, (0.5, 0.38), (0.5, 0.64));
                pen.Dot(paper, 0.5, 0.79);
                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(mark), mark, null);
        }
    }

    /// <summary>The mark alone, as an inline picture.</summary>
    public static Picture Alone(Mark mark, double side, Ink ink, ITextMeasure measure)
    {
        var drawing = new Drawing(measure, side, side);
        Put(drawing, mark, new Box(0, 0, side, side), ink, Ink.White);
        return drawing.AsDecoration();
    }

    /// <summary>The mark centred in the height of a line of text that it stands before.</summary>
    public static Picture Inline(Mark mark, double side, double lineHeight, Ink ink, ITextMeasure measure)
    {
        var drawing = new Drawing(measure, side, lineHeight);
        Put(drawing, mark, new Box(0, (lineHeight - side) / 2, side, side), ink, Ink.White);
        return drawing.AsDecoration();
    }

    private sealed class Pen(Drawing drawing, Box square, Ink ink, Ink paper)
    {
        private Point At(double x, double y) =>
            new(square.X + (x * square.Width), square.Y + (y * square.Height));

        public void Disc() => drawing.Circle(At(0.5, 0.5), square.Width / 2, ink);

        public void Square() =>
            drawing.Rectangle(
                new Box(
                    square.X + (0.04 * square.Width),
                    square.Y + (0.04 * square.Height),
                    0.92 * square.Width,
                    0.92 * square.Height
                ),
                ink
            );

        public void Ring() =>
            drawing.Circle(
                At(0.5, 0.5),
                (square.Width / 2) - (square.Width * 0.06),
                paper,
                new Stroke(ink, square.Width * 0.12)
            );

        public void Octagon()
        {
            const double Cut = 0.293;
            drawing.Polygon(
                [
                    At(Cut, 0),
                    At(1 - Cut, 0),
                    At(1, Cut),
                    At(1, 1 - Cut),
                    At(1 - Cut, 1),
                    At(Cut, 1),
                    At(0, 1 - Cut),
                    At(0, Cut),
                ],
                ink
            );
        }

        public void Triangle() => drawing.Polygon([At(0.5, 0.03), At(1, 0.95), At(0, 0.95)], ink);

        public void Dot(Ink colour, double x, double y) =>
            drawing.Circle(At(x, y), square.Width * 0.07, colour);

        public void Stroke(Ink colour, params (double X, double Y)[] points)
        {
            ImmutableArray<Point> path = [.. points.Select(point => At(point.X, point.Y))];
            drawing.Polyline(path, new Stroke(colour, square.Width * 0.13));
        }
    }
}
