using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Words;
using ServiceRules.Rules.Model;

namespace ServiceRules.Reporting.Reports.Drawings;

/// <summary>
/// A unit seen from behind in one line: the zone of a quantity across the width, the readings at their stations with
/// uncertainty, the line through them to the blade ends. Tilt and offset show as such; heights are enlarged.
/// </summary>
internal static class WidthStrip
{
    public static Block Of(
        IReadOnlyList<ComparedPlace> places,
        LimitSheet sheet,
        UnitSystem system,
        double width,
        double height,
        ITextMeasure measure
    )
    {
        if (LimitScale.Of([.. places.Select(place => place.Comparison)]) is not { } scale)
        {
            return new Gap(0);
        }
        var drawing = new Drawing(measure, width, height);
        var strip = new Strip(drawing, scale, sheet.Width.Governing.Value);
        strip.Zones(places);
        strip.Readings(places);
        return drawing.AsFigure(
            string.Join(
                "; ",
                places.Select(place =>
                    $"{place.Comparison.Place} {LengthPrint.Known(place.Comparison, system)} "
                    + VerdictPrint.Of(place.Comparison.Verdict).Word
                )
            )
        );
    }

    private sealed class Strip(Drawing drawing, LimitScale scale, Length width)
    {
        private const double Side = 5;

        private double X(Length along) =>
            Side + ((double)(along.Millimetres / width.Millimetres) * (drawing.Width - (2 * Side)));

        private double Y(Length value) => 1.5 + ((1 - scale.Share(value)) * (drawing.Height - 3));

        public void Zones(IReadOnlyList<ComparedPlace> places)
        {
            var first = places[0].Comparison;
            Zone(first.LowerLimit, first.UpperLimit, Palette.Tolerance);
            Zone(first.AcceptLower, first.AcceptUpper, Palette.Acceptance);
            foreach (var limit in new[] { first.LowerLimit, first.UpperLimit }.OfType<Length>())
            {
                drawing.Line(Side, Y(limit), drawing.Width - Side, Y(limit), new Stroke(Palette.Ink, 0.5));
            }
            if (first.Target is { } target)
            {
                var stroke = new Stroke(Palette.Quiet, 0.4, Dash.Dotted);
                drawing.Line(Side, Y(target), drawing.Width - Side, Y(target), stroke);
            }
            // The blade ends.
            foreach (var end in new[] { Side, drawing.Width - Side })
            {
                drawing.Line(end, 0, end, drawing.Height, Palette.Thin);
            }
        }

        public void Readings(IReadOnlyList<ComparedPlace> places)
        {
            var valued = places.Where(place => place.Comparison.Value is not null).ToList();
            if (valued.Count > 1)
            {
                ImmutableArray<Point> line =
                [
                    .. valued.Select(place => new Point(
                        X(place.Along!.Value),
                        Y(place.Comparison.Value!.Value)
                    )),
                ];
                drawing.Polyline(line, new Stroke(Palette.Ink, 0.6));
            }
            foreach (var place in valued)
            {
                Reading(place, place.Comparison.Value!.Value);
            }
        }

        private void Reading(ComparedPlace place, Length value)
        {
            var x = X(place.Along!.Value);
            var doubt = place.Comparison.Uncertainty ?? Length.Zero;
            var stroke = new Stroke(VerdictPrint.Of(place.Comparison.Verdict).Ink, 0.8);
            drawing.Line(x, Y(value - doubt), x, Y(value + doubt), stroke);
            if (!place.IsEnd || place.Comparison.Verdict != Verdict.Met)
            {
                LimitBar.Marker(x, Y(value), place.Comparison.Verdict, drawing);
            }
        }

        private void Zone(Length? lower, Length? upper, Ink ink)
        {
            if (lower is null && upper is null)
            {
                return;
            }
            var bottom = lower is { } low ? Y(low) : drawing.Height;
            var top = upper is { } high ? Y(high) : 0;
            if (bottom > top)
            {
                drawing.Rectangle(new Box(Side, top, drawing.Width - (2 * Side), bottom - top), ink);
            }
        }
    }
}
