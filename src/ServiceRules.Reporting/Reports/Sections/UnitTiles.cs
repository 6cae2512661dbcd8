using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Words;
using ServiceRules.Rules.Model;

namespace ServiceRules.Reporting.Reports.Sections;

/// <summary>All units of the job side by side as they hang on the machine, each with its outcome.</summary>
internal static class UnitTiles
{
    private const double TileHeight = 30;
    private const double Gutter = 8;

    /// <summary>More than these would be too small to read.</summary>
    private const int TilesMax = 6;

    public static IEnumerable<Block> Of(JobView job, double width)
    {
        if (job.Units.Length < 2)
        {
            yield break;
        }
        foreach (var chunk in job.Units.Chunk(TilesMax))
        {
            var tile = (width - (Gutter * (chunk.Length - 1))) / chunk.Length;
            var drawing = new Drawing(job.Measure, width, TileHeight);
            for (var index = 0; index < chunk.Length; index++)
            {
                Put(drawing, chunk[index], index * (tile + Gutter), tile);
            }
            var told = chunk.Select(unit => $"{unit.Work.Id.Text} {unit.Outcome.Word}");
            yield return drawing.AsFigure($"units from the left: {string.Join(", ", told)}");
        }
    }

    /// <summary>One unit from behind, small, with the marks of what was asked of it at mid-width.</summary>
    public static Picture Alone(JobView job, UnitView unit, LimitSheet sheet, double width, double height)
    {
        var drawing = new Drawing(job.Measure, width, height);
        var body = new Box(6, 0.5, width - 12, height - 1);
        Outline(drawing, body, sheet.Blades);
        var marks = Enum.GetValues<MeasuredQuantity>()
            .Select(unit.MarkOf)
            .OfType<QuantityMark>()
            .ToImmutableArray();
        var side = height - 3;
        var left = (width / 2) - (marks.Length * (side + 2) / 2);
        foreach (var mark in marks)
        {
            var print = VerdictPrint.Of(mark.Verdict);
            MarkDrawing.Put(drawing, print.Mark, new Box(left, 1.5, side, side), print.Ink, Ink.White);
            left += side + 2;
        }
        var told = marks.Select(mark =>
            $"{job.Say(mark.Name)} {mark.Told}, {VerdictPrint.Of(mark.Verdict).Word}"
        );
        return drawing.AsFigure($"unit {unit.Work.Id.Text}: {string.Join("; ", told)}");
    }

    private static void Put(Drawing drawing, UnitView unit, double left, double width)
    {
        var print = unit.Outcome;
        Outline(drawing, new Box(left, 18, width, 11), unit.Sheet?.Blades ?? 7);
        MarkDrawing.Put(drawing, print.Mark, new Box(left, 2, 11, 11), print.Ink, Ink.White);
        var name = unit.Work.Id.Text;
        drawing.Text(left + 14, 10.5, name, Palette.SmallBold, Align.Left, width / 2);
        var taken = Math.Min(width / 2, drawing.WidthOf(name, Palette.SmallBold));
        drawing.Text(left + 18 + taken, 10.5, print.Word, Palette.Small, Align.Left, width - taken - 20);
    }

    private static void Outline(Drawing drawing, Box body, int blades)
    {
        var reel = body with { Height = body.Height * 0.66 };
        drawing.Rectangle(reel, Ink.White, new Stroke(Palette.Steel, 0.5));
        var step = reel.Width / blades;
        for (var blade = 0; blade < blades; blade++)
        {
            var x = reel.X + (blade * step);
            drawing.Line(x, reel.Bottom, x + step, reel.Y, new Stroke(Palette.Hair, 0.5));
        }
        var knife = new Box(body.X, body.Bottom - (body.Height * 0.22), body.Width, body.Height * 0.22);
        drawing.Rectangle(knife, Palette.Steel);
    }
}
