using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Words;
using ServiceRules.Rules.Model;

namespace ServiceRules.Reporting.Reports.Drawings;

/// <summary>
/// The unit from the operator's seat, left on the left: reel over bedknife over rollers, with one line of marks and
/// figures for every quantity read across the width. Widths are in proportion to one another.
/// </summary>
internal sealed class FrontView
{
    public const double Width = 306;

    private const double PointsPerMillimetre = 0.234;
    private const double LabelWidth = 76;
    private const double OuterWidth = 26;
    private const double RowHeight = 11.5;
    private const double BodyHeight = 58;

    private static readonly MeasuredQuantity[] Order =
    [
        MeasuredQuantity.ShieldGap,
        MeasuredQuantity.Clearance,
        MeasuredQuantity.Edge,
        MeasuredQuantity.FrontRoller,
        MeasuredQuantity.HeightOfCut,
        MeasuredQuantity.GroomerHeight,
        MeasuredQuantity.BrushGap,
        MeasuredQuantity.BearingPlay,
        MeasuredQuantity.Guards,
    ];

    private readonly JobView _job;
    private readonly UnitView _unit;
    private readonly LimitSheet _sheet;
    private readonly Drawing _drawing;
    private readonly double _scale;
    private readonly double _left;

    private FrontView(JobView job, UnitView unit, LimitSheet sheet, double height)
    {
        _job = job;
        _unit = unit;
        _sheet = sheet;
        _drawing = new Drawing(job.Measure, Width, height);
        var widest = Width - LabelWidth - (2 * OuterWidth);
        var width = (double)sheet.Width.Governing.Value.Millimetres;
        _scale = Math.Min(PointsPerMillimetre, widest / width);
        _left = LabelWidth + OuterWidth + ((widest - (width * _scale)) / 2);
    }

    public static Picture Of(JobView job, UnitView unit, LimitSheet sheet)
    {
        var rows = Order
            .Select(quantity => (Mark: unit.MarkOf(quantity), Places: PlacesOf(unit, quantity)))
            .Where(row => row.Mark is not null)
            .Select(row => (Mark: row.Mark!, row.Places))
            .ToList();
        var view = new FrontView(job, unit, sheet, BodyHeight + (RowHeight * rows.Count) + 2);
        view.Body(rows.SelectMany(row => row.Places).Where(place => !place.IsEnd));
        for (var index = 0; index < rows.Count; index++)
        {
            view.Row(rows[index].Mark, rows[index].Places, BodyHeight + (RowHeight * index));
        }
        var told = rows.Select(row =>
            $"{job.Say(row.Mark.Name)} {(row.Places.Count == 0 ? row.Mark.Told + ", " : "")}"
            + VerdictPrint.Of(row.Mark.Verdict).Word
            + string.Concat(row.Places.Select(place => Told(place.Comparison, unit)))
        );
        return view._drawing.AsFigure($"front view of unit {unit.Work.Id}; {string.Join("; ", told)}");
    }

    private static string Told(Comparison comparison, UnitView unit) =>
        $", {comparison.Place} {LengthPrint.Known(comparison, unit.SystemOf(comparison))} "
        + VerdictPrint.Of(comparison.Verdict).Word;

    private static IReadOnlyList<ComparedPlace> PlacesOf(UnitView unit, MeasuredQuantity quantity)
    {
        var itself = unit.Telling(quantity);
        return itself.Count > 0 ? itself : unit.Telling(quantity, FigureKind.AboveOther);
    }

    private double Right => X(_sheet.Width.Governing.Value);

    private double X(Length along) => _left + ((double)along.Millimetres * _scale);

    private void Body(IEnumerable<ComparedPlace> stations)
    {
        var reel = new Box(_left, 9, Right - _left, 22);
        _drawing.Text(_left, 5.5, "left", Palette.Label, Align.Centre);
        _drawing.Text(Right, 5.5, "right", Palette.Label, Align.Centre);
        _drawing.Text((_left + Right) / 2, 5.5, "from the operator's seat", Palette.Label, Align.Centre);
        _drawing.Rectangle(reel, Ink.White, Palette.Outline);
        Helix(reel);
        _drawing.Rectangle(new Box(_left - 5, 7, 5, 44), Palette.Metal, Palette.Outline);
        _drawing.Rectangle(new Box(Right, 7, 5, 44), Palette.Metal, Palette.Outline);
        _drawing.Rectangle(new Box(_left, 33, reel.Width, 4), Palette.Steel, Palette.Outline);
        _drawing.Rectangle(new Box(_left + 2, 42, reel.Width - 4, 9), Palette.Metal, Palette.Outline, 3);
        var plane = new Stroke(Palette.Quiet, 0.6, Dash.Dashed);
        _drawing.Line(_left - 14, 51.6, Right + 14, 51.6, plane);
        foreach (var along in stations.Select(place => place.Along!.Value).Distinct())
        {
            var x = X(along);
            _drawing.Line(x, 9, x, BodyHeight, new Stroke(Palette.Steel, 0.4, Dash.Dotted));
        }
    }

    private void Helix(Box reel)
    {
        const double Lead = 0.42;
        var step = reel.Width / (_sheet.Blades * 0.75);
        for (var start = reel.X - (Lead * reel.Height) - step; start < reel.Right; start += step)
        {
            var (fromX, toX) = (start, start + step);
            var from = Math.Max(reel.X, fromX);
            var to = Math.Min(reel.Right, toX);
            if (to > from)
            {
                _drawing.Line(from, Y(from), to, Y(to), new Stroke(Palette.Steel, 0.7));
            }

            double Y(double x) => reel.Bottom - ((x - fromX) / (toX - fromX) * reel.Height);
        }
    }

    private void Row(QuantityMark mark, IReadOnlyList<ComparedPlace> places, double top)
    {
        const double Side = 6;
        var middle = top + (RowHeight / 2);
        var print = VerdictPrint.Of(mark.Verdict);
        var box = new Box(0, middle - (Side / 2), Side, Side);
        _drawing.Line(0, top, Width, top, new Stroke(Palette.Hair, 0.35));
        MarkDrawing.Put(_drawing, print.Mark, box, print.Ink, Ink.White);
        _drawing.Text(
            Side + 3,
            middle + 2,
            _job.Say(mark.Name),
            Palette.TinyBold,
            Align.Left,
            LabelWidth - Side - 3
        );
        if (places.Count == 0)
        {
            _drawing.Text((_left + Right) / 2, middle + 2, mark.Told, Palette.Tiny, Align.Centre);
        }
        foreach (var place in places)
        {
            Put(place, _unit.SystemOf(place.Comparison), middle);
        }
    }

    private void Put(ComparedPlace place, UnitSystem system, double middle)
    {
        var x = X(place.Along!.Value);
        var print = VerdictPrint.Of(place.Comparison.Verdict);
        var side = place.IsEnd ? 4.5 : 6.5;
        var box = new Box(x - (side / 2), middle - (side / 2), side, side);
        MarkDrawing.Put(_drawing, print.Mark, box, print.Ink, Ink.White);
        if (place.IsEnd && place.Comparison.Verdict == Verdict.Met)
        {
            return;
        }
        var isLeft = x < (_left + Right) / 2;
        var outwards = place.IsEnd == isLeft;
        var text = LengthPrint.Short(place.Comparison, system);
        var at = outwards ? x - (side / 2) - 1.5 : x + (side / 2) + 1.5;
        _drawing.Text(
            at,
            middle + 2,
            text,
            place.IsEnd ? Palette.TinyQuiet : Palette.Tiny,
            outwards ? Align.Right : Align.Left,
            place.IsEnd ? OuterWidth - 5 : null
        );
    }
}
