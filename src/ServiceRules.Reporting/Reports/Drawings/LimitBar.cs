using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Reporting.Reports.Drawings;

/// <summary>
/// One reading as a bar against its limit: pale zone between the limits, darker zone where it counts as in, the reading
/// with its expanded uncertainty as whiskers, or the interval that is known.
/// </summary>
internal static class LimitBar
{
    private const double Height = 15.5;
    private const double Axis = 5;
    private const double Half = 3.6;

    public static Block Of(
        Comparison comparison,
        IReadOnlyCollection<Comparison> sameScale,
        UnitSystem system,
        double width,
        ITextMeasure measure
    )
    {
        if (LimitScale.Of(sameScale) is not { } scale)
        {
            return new Gap(0);
        }
        var drawing = new Drawing(measure, width, Height);
        var bar = new Bar(drawing, scale, comparison);
        bar.Zones();
        bar.Labels(system);
        bar.Known();
        return drawing.AsFigure(
            $"{LengthPrint.Known(comparison, system)} against {LengthPrint.Limits(comparison, system)}: "
                + VerdictPrint.Of(comparison.Verdict).Word
        );
    }

    private sealed class Bar(Drawing drawing, LimitScale scale, Comparison one)
    {
        private readonly VerdictPrint _print = VerdictPrint.Of(one.Verdict);

        private double X(Length length) => 2 + (scale.Share(length) * (drawing.Width - 4));

        public void Zones()
        {
            Zone(one.LowerLimit, one.UpperLimit, Palette.Tolerance);
            if (one.AcceptLower is not null || one.AcceptUpper is not null)
            {
                Zone(one.AcceptLower, one.AcceptUpper, Palette.Acceptance);
            }
            drawing.Line(0, Axis, drawing.Width, Axis, Palette.HairLine);
            foreach (var limit in new[] { one.LowerLimit, one.UpperLimit }.OfType<Length>())
            {
                drawing.Line(X(limit), Axis - Half - 1, X(limit), Axis + Half, Palette.Outline);
            }
            if (one.Target is { } target && scale.Shows(target))
            {
                var stroke = new Stroke(Palette.Quiet, 0.5, Dash.Dotted);
                drawing.Line(X(target), Axis - Half, X(target), Axis + Half, stroke);
            }
        }

        public void Labels(UnitSystem system)
        {
            const double Baseline = Height - 1.6;
            var lower = one.LowerLimit is { } low ? LengthPrint.Limit(low, system) : null;
            var upper = one.UpperLimit is { } high ? LengthPrint.Limit(high, system) : null;
            var tight =
                lower is not null
                && upper is not null
                && X(one.UpperLimit!.Value) - X(one.LowerLimit!.Value)
                    < (drawing.WidthOf(lower, Palette.Label) / 2)
                        + (drawing.WidthOf(upper, Palette.Label) / 2)
                        + 3;
            if (lower is not null)
            {
                var anchor = tight ? Align.Right : Align.Centre;
                drawing.Text(
                    X(one.LowerLimit!.Value) + (tight ? 1 : 0),
                    Baseline,
                    lower,
                    Palette.Label,
                    anchor
                );
            }
            if (upper is not null)
            {
                var anchor = tight ? Align.Left : Align.Centre;
                drawing.Text(
                    X(one.UpperLimit!.Value) - (tight ? 1 : 0),
                    Baseline,
                    upper,
                    Palette.Label,
                    anchor
                );
            }
        }

        public void Known()
        {
            if (one.Value is { } value)
            {
                if (one.Uncertainty is { } doubt)
                {
                    Whisker(value - doubt, value + doubt);
                }
                Marker(X(value), Axis, one.Verdict, drawing);
                return;
            }
            if (one.KnownLower is null && one.KnownUpper is null)
            {
                return;
            }
            var from = one.KnownLower is { } lower ? X(lower) : 0;
            var to = one.KnownUpper is { } upper ? X(upper) : drawing.Width;
            var band = new Box(from, Axis - 1.3, Math.Max(0.8, to - from), 2.6);
            var open = one.Verdict is Verdict.Met or Verdict.NotMet ? (Ink?)_print.Ink : Ink.White;
            drawing.Rectangle(band, open, new Stroke(_print.Ink, 0.8));
            Arrow(one.KnownLower is null, 0, 1);
            Arrow(one.KnownUpper is null, drawing.Width, -1);
        }

        private void Whisker(Length from, Length to)
        {
            var stroke = new Stroke(_print.Ink, 0.9);
            drawing.Line(X(from), Axis, X(to), Axis, stroke);
            foreach (var end in new[] { from, to }.Where(scale.Shows))
            {
                drawing.Line(X(end), Axis - 1.9, X(end), Axis + 1.9, stroke);
            }
            Arrow(!scale.Shows(from), 0, 1);
            Arrow(!scale.Shows(to), drawing.Width, -1);
        }

        private void Arrow(bool shown, double tip, int inwards)
        {
            if (shown)
            {
                drawing.Polygon(
                    [
                        new Point(tip, Axis),
                        new Point(tip + (inwards * 3), Axis - 2),
                        new Point(tip + (inwards * 3), Axis + 2),
                    ],
                    _print.Ink
                );
            }
        }

        private void Zone(Length? lower, Length? upper, Ink ink)
        {
            // Where no lower limit is stated, nought is the natural bound of what cannot be negative.
            var floor = scale.Shows(Length.Zero) ? X(Length.Zero) : 0;
            var from = lower is { } low ? X(low) : floor;
            var to = upper is { } high ? X(high) : drawing.Width;
            if (to > from)
            {
                drawing.Rectangle(new Box(from, Axis - Half, to - from, 2 * Half), ink);
            }
        }
    }

    /// <summary>The point of a reading, in the silhouette of its verdict.</summary>
    public static void Marker(double x, double y, Verdict verdict, Drawing drawing)
    {
        var ink = VerdictPrint.Of(verdict).Ink;
        switch (verdict)
        {
            case Verdict.Met:
                drawing.Circle(new Point(x, y), 2, ink);
                break;
            case Verdict.NotMet:
                drawing.Rectangle(new Box(x - 2, y - 2, 4, 4), ink);
                break;
            default:
                drawing.Circle(new Point(x, y), 1.8, Ink.White, new Stroke(ink, 1));
                break;
        }
    }
}
