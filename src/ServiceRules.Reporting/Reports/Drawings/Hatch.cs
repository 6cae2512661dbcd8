using ServiceRules.Reporting.Layout;

namespace ServiceRules.Reporting.Reports.Drawings;

/// <summary>Slanted lines over a ground, so that a shade is told apart without its colour.</summary>
internal static class Hatch
{
    /// <summary>Rising lines, cut at the edges of the box.</summary>
    public static void Rising(Drawing drawing, Box box, double step, Stroke stroke) =>
        Put(drawing, box, step, stroke, rising: true);

    /// <summary>Falling lines, cut at the edges of the box.</summary>
    public static void Falling(Drawing drawing, Box box, double step, Stroke stroke) =>
        Put(drawing, box, step, stroke, rising: false);

    private static void Put(Drawing drawing, Box box, double step, Stroke stroke, bool rising)
    {
        // Lines stand where they would on an endless sheet, so that boxes side by side look like one.
        for (var start = Math.Ceiling((box.X - box.Height) / step) * step; start < box.Right; start += step)
        {
            var from = Math.Max(start, box.X);
            var to = Math.Min(start + box.Height, box.Right);
            if (to - from < 0.05)
            {
                continue;
            }
            drawing.Line(from, Y(box, from - start, rising), to, Y(box, to - start, rising), stroke);
        }
    }

    private static double Y(Box box, double along, bool rising) =>
        rising ? box.Bottom - along : box.Y + along;
}
