using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Drawings;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Reporting.Reports.Sections;

/// <summary>Units that were only checked: one line each, drawn across its width.</summary>
internal static class BriefUnitsSection
{
    private const double StripWidth = 120;
    private const double StripHeight = 11;

    public static Block Of(JobView job)
    {
        var table = new Table(
            [
                ColumnWidth.Fixed(94),
                ColumnWidth.Fixed(80),
                ColumnWidth.Fixed(StripWidth + 6),
                ColumnWidth.Share(),
            ],
            new TableRow([
                Head("unit"),
                Head("outcome"),
                Head("across, left end to right end"),
                Head("at the stations, and what is not in"),
            ]),
            [.. job.Units.Select(unit => RowOf(job, unit))],
            new TableStyle(3, 1.2, Palette.HairLine) { HeaderLine = Palette.Outline }
        );
        return new Stack(
            [Paragraph.Heading(2, "Units", job.Heading), table, new Paragraph(Legend, Palette.TinyQuiet)],
            2
        );
    }

    private const string Legend =
        "Pale: between the limits; darker: counts as in, uncertainty taken off; dotted: target. Reading with whiskers: disc "
        + "in, square out, ring not proven; the line runs to the blade ends.";

    private static Paragraph Head(string text) => new(text, Palette.TinyQuiet);

    private static TableRow RowOf(JobView job, UnitView unit)
    {
        var place = unit.Work.Position is { } position ? $"pos. {position}" : "bench";
        var name = new Paragraph([
            new Span($"{unit.Work.Id.Text}  ", Palette.SmallBold),
            new Span($"{place}, {SheetName(unit)}", Palette.TinyQuiet),
        ]);
        return new TableRow([
            name,
            job.MarkedLine(unit.Outcome, new Span(unit.Outcome.Word, Palette.SmallBold)),
            Strip(job, unit),
            Told(job, unit),
        ]);
    }

    private static string SheetName(UnitView unit) =>
        unit.Sheet is { } sheet
            ? $"{sheet.ReelDiameter.Governing.Value.ToString(Domain.Quantities.LengthUnit.Millimetre, 0)} reel"
            : unit.Work.Sheet;

    private static Block Strip(JobView job, UnitView unit)
    {
        if (unit.Sheet is not { } sheet)
        {
            return new Gap(0);
        }
        var read = unit.Places.Select(place => (MeasuredQuantity?)place.Comparison.Quantity).FirstOrDefault();
        var places = read is { } quantity ? unit.Telling(quantity) : [];
        return places.Count == 0
            ? UnitTiles.Alone(job, unit, sheet, StripWidth, StripHeight)
            : WidthStrip.Of(places, sheet, unit.SystemOf(read!.Value), StripWidth, StripHeight, job.Measure);
    }

    private static Stack Told(JobView job, UnitView unit)
    {
        var lines = ImmutableArray.CreateBuilder<Block>();
        var read = Readings(job, unit);
        var met = unit.Findings.Count(finding => finding.Verdict == Verdict.Met);
        if (!unit.NotIn.Any())
        {
            var allIn = $"all in by {ReportWords.Counted(met, "rule", "rules")}";
            lines.Add(new Paragraph(read.Length == 0 ? allIn : $"{read}; {allIn}", Palette.Tiny));
            lines.AddRange(Remarks(job, unit));
            return new Stack(lines.ToImmutable());
        }
        if (read.Length > 0)
        {
            lines.Add(new Paragraph(read, Palette.Tiny));
        }
        var contradictions = new ContradictionsTold();
        foreach (var finding in unit.NotIn)
        {
            if (job.DefectTold(finding) is { } defect)
            {
                lines.Add(
                    job.MarkedLine(
                        VerdictPrint.Of(finding.Verdict),
                        new Span(
                            $"{job.TitleOf(finding)}: {FindingBlock.InSafeWork(job, defect)}. ",
                            Palette.Tiny
                        )
                    )
                );
                continue;
            }
            var (statement, isReference) = contradictions.Of(finding, job.TitleOf(finding));
            var todo = isReference
                ? ""
                : string.Join(" ", RemedyText.Of(job.Say, finding.Remedy, job.SystemOf(finding)));
            lines.Add(
                job.MarkedLine(
                    VerdictPrint.Of(finding.Verdict),
                    new Span(job.Say(statement) + ". ", Palette.Tiny),
                    new Span(todo, Palette.TinyBold)
                )
            );
            if (finding.LetOut is { } letOut)
            {
                lines.Add(new Paragraph($"Let out: {letOut}", Palette.TinyBold));
            }
        }
        lines.AddRange(Remarks(job, unit));
        return new Stack(lines.ToImmutable());
    }

    private static IEnumerable<Block> Remarks(JobView job, UnitView unit) =>
        unit.Remarks.Select(remark => new Paragraph(UnitSection.Remark(job, remark), Palette.TinyQuiet));

    /// <summary>The readings at the stations, named by quantity only when there is more than one.</summary>
    private static string Readings(JobView job, UnitView unit)
    {
        var quantities = unit.Places.Select(place => place.Comparison.Quantity).Distinct().ToList();
        var told = quantities.Select(quantity =>
        {
            var system = unit.SystemOf(quantity);
            var places = unit.Telling(quantity)
                .Where(place => !place.IsEnd)
                .Select(place => $"{place.Comparison.Place} {LengthPrint.Known(place.Comparison, system)}");
            var name = quantities.Count > 1 ? job.Say(ReportWords.Of(quantity)) + " " : "";
            return name + string.Join(", ", places);
        });
        var seen = unit
            .Work.Entries.Where(entry => entry is Reading { Observed: not Observation.Measured })
            .Select(entry => job.Say(BenchWords.Told(entry)));
        return string.Join("; ", told.Concat(seen).Where(text => text.Length > 0));
    }
}
