using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Words;
using ServiceRules.Rules.Model;

namespace ServiceRules.Reporting.Reports.Drawings;

/// <summary>
/// The unit from its left side, moving to the left: rollers on their plane, reel, bedknife, and what is fitted. Reel
/// diameters are in proportion to one another; gaps are enlarged so that they can be seen.
/// </summary>
internal sealed class SideView
{
    public const double Width = 214;
    public const double Height = 158;

    private const double PointsPerMillimetre = 0.25;
    private const double PlaneY = 122;
    private const double ReelX = 104;
    private const double KnifeRise = 13;
    private const double RollerRadius = 12;

    private const double CallOutWidth = 60;

    /// <summary>Baseline of the call-outs under the roller plane.</summary>
    private const double Below = 141;

    private readonly JobView _job;
    private readonly UnitView _unit;
    private readonly Drawing _drawing;
    private readonly double _radius;
    private readonly Point _centre;

    private SideView(JobView job, UnitView unit, LimitSheet sheet)
    {
        _job = job;
        _unit = unit;
        _drawing = new Drawing(job.Measure, Width, Height);
        _radius = Math.Clamp(
            (double)sheet.ReelDiameter.Governing.Value.Millimetres * PointsPerMillimetre,
            16,
            50
        );
        _centre = new Point(ReelX, PlaneY - KnifeRise - 2.5 - _radius);
    }

    public static Picture Of(JobView job, UnitView unit, LimitSheet sheet)
    {
        var view = new SideView(job, unit, sheet);
        view.Rollers();
        view.Reel(sheet.Blades);
        view.Bedknife();
        view.Fittings();
        view.CallOuts();
        return view._drawing.AsFigureBelow(view.EmptyTop, $"side view of unit {unit.Work.Id}: {view.Told()}");
    }

    /// <summary>Height that nothing is drawn in: no call-out stands above the reel.</summary>
    private double EmptyTop =>
        Reads(MeasuredQuantity.ShieldGap) || Reads(MeasuredQuantity.ReelDiameter)
            ? 0
            : Math.Max(0, _centre.Y - _radius - 9);

    private double FrontX => ReelX - _radius - 25;

    private double RearX => ReelX + _radius + 30;

    private Point Shear => new(ReelX + (_radius * 0.17), PlaneY - KnifeRise - 2.5 - (_radius * 0.015));

    private bool Has(Attachment attachment) => _unit.Work.Attachments.Contains(attachment);

    private void Rollers()
    {
        var plane = new Stroke(Palette.Quiet, 0.6, Dash.Dashed);
        _drawing.Line(8, PlaneY, Width - 8, PlaneY, plane);
        foreach (var x in new[] { FrontX, RearX })
        {
            var axle = new Point(x, PlaneY - RollerRadius);
            _drawing.Circle(axle, RollerRadius, Palette.Metal, Palette.Outline);
            _drawing.Circle(axle, 1.6, Palette.Ink);
        }
    }

    private void Reel(int blades)
    {
        _drawing.Circle(_centre, _radius, Ink.White, new Stroke(Palette.Steel, 0.5, Dash.Dashed));
        for (var blade = 0; blade < blades; blade++)
        {
            var start = (360.0 * blade / blades) + 84;
            ImmutableArray<Point> curve =
            [
                .. Enumerable
                    .Range(0, 7)
                    .Select(step => Polar(start - (step * 4.5), 0.34 + (0.66 * step / 6))),
            ];
            _drawing.Polyline(curve, new Stroke(Palette.Ink, 1.1));
        }
        _drawing.Circle(_centre, _radius * 0.34, Palette.Metal, Palette.Outline);
        _drawing.Circle(_centre, 2, Palette.Ink);
        var turn = new Stroke(Palette.Quiet, 0.7);
        _drawing.Arc(_centre, _radius * 0.2, 200, 340, turn);
    }

    private void Bedknife()
    {
        var edge = Shear with { Y = Shear.Y + 2.5 };
        _drawing.Polygon(
            [
                edge,
                new Point(edge.X + 26, edge.Y - 2.5),
                new Point(edge.X + 30, edge.Y - 10),
                new Point(edge.X + 37, edge.Y - 10),
                new Point(edge.X + 36, edge.Y + 1.5),
                new Point(edge.X + 24, edge.Y + 3),
                new Point(edge.X + 4, edge.Y + 3),
            ],
            Palette.Steel,
            Palette.Outline
        );
    }

    private void Fittings()
    {
        if (Has(Attachment.Shield) || Reads(MeasuredQuantity.ShieldGap))
        {
            _drawing.Arc(_centre, _radius + 4.5, 208, 318, new Stroke(Palette.Ink, 1.6));
        }
        if (Has(Attachment.RollerBrush) || Reads(MeasuredQuantity.BrushGap))
        {
            var brush = new Point(RearX + 17, PlaneY - RollerRadius - 11);
            _drawing.Circle(brush, 7, Ink.White, new Stroke(Palette.Ink, 0.6));
            for (var bristle = 0; bristle < 12; bristle++)
            {
                var angle = double.DegreesToRadians(30 * bristle);
                var tip = new Point(brush.X + (7 * Math.Cos(angle)), brush.Y + (7 * Math.Sin(angle)));
                _drawing.Line(brush.X, brush.Y, tip.X, tip.Y, new Stroke(Palette.Quiet, 0.5));
            }
        }
        if (Has(Attachment.Groomer) || Reads(MeasuredQuantity.GroomerHeight))
        {
            var groomer = new Point(FrontX + 18.5, PlaneY - 16);
            _drawing.Circle(groomer, 6.5, Ink.White, new Stroke(Palette.Ink, 0.6));
            for (var tooth = 0; tooth < 8; tooth++)
            {
                var angle = double.DegreesToRadians(45 * tooth);
                var tip = new Point(groomer.X + (8 * Math.Cos(angle)), groomer.Y + (8 * Math.Sin(angle)));
                _drawing.Line(groomer.X, groomer.Y, tip.X, tip.Y, new Stroke(Palette.Ink, 0.8));
            }
        }
    }

    private void CallOuts()
    {
        var high = new Point(ReelX - (_radius * 0.4), PlaneY - 5);
        var dimension = new Stroke(Palette.Quiet, 0.6);
        var level = Shear.Y + 2.5;
        _drawing.Line(high.X, level, high.X, PlaneY, dimension);
        _drawing.Line(high.X - 3, level, Shear.X, level, new Stroke(Palette.Quiet, 0.4, Dash.Dotted));
        CallOut(MeasuredQuantity.GroomerHeight, new Point(FrontX + 18.5, PlaneY - 6), new Point(2, Below));
        CallOut(MeasuredQuantity.HeightOfCut, high, new Point(72, Below));
        CallOut(MeasuredQuantity.Clearance, Shear with { Y = Shear.Y + 1 }, new Point(142, Below));
        CallOut(
            MeasuredQuantity.ShieldGap,
            new Point(_centre.X + (_radius * 0.74), _centre.Y - (_radius * 0.74)),
            new Point(152, 8)
        );
        CallOut(MeasuredQuantity.ReelDiameter, Polar(215, 0.72), new Point(2, 8));
        CallOut(
            MeasuredQuantity.BrushGap,
            new Point(RearX + 12, PlaneY - RollerRadius - 7),
            new Point(Width - 52, 66)
        );
        CallOut(MeasuredQuantity.FrontRoller, new Point(FrontX - 5, PlaneY - 20), new Point(2, 66));
        _drawing.Text(2, Height - 1.5, "moves to the left; gaps enlarged", Palette.Label);
    }

    private bool Reads(MeasuredQuantity quantity) => _unit.MarkOf(quantity) is not null;

    private void CallOut(MeasuredQuantity quantity, Point at, Point label)
    {
        if (_unit.MarkOf(quantity) is not { } mark)
        {
            return;
        }
        var print = VerdictPrint.Of(mark.Verdict);
        var bend = new Point(label.X + 3.5, label.Y > at.Y ? label.Y - 6 : label.Y + 9);
        _drawing.Line(at.X, at.Y, bend.X, bend.Y, new Stroke(print.Ink, 0.5));
        _drawing.Circle(at, 1.1, print.Ink);
        MarkDrawing.Put(_drawing, print.Mark, new Box(label.X, label.Y - 5.5, 7, 7), print.Ink, Ink.White);
        var room = Math.Min(Width - label.X - 9, CallOutWidth);
        _drawing.Text(label.X + 9, label.Y - 0.5, _job.Say(mark.Name), Palette.TinyBold, Align.Left, room);
        _drawing.Text(label.X + 9, label.Y + 6.5, mark.Told, Palette.Tiny, Align.Left, room);
    }

    private string Told()
    {
        var told = Enum.GetValues<MeasuredQuantity>()
            .Select(quantity => _unit.MarkOf(quantity))
            .OfType<QuantityMark>()
            .Select(mark => $"{_job.Say(mark.Name)} {mark.Told}, {VerdictPrint.Of(mark.Verdict).Word}");
        return string.Join("; ", told);
    }

    private Point Polar(double degrees, double share)
    {
        var angle = double.DegreesToRadians(degrees);
        return new Point(
            _centre.X + (_radius * share * Math.Cos(angle)),
            _centre.Y + (_radius * share * Math.Sin(angle))
        );
    }
}
