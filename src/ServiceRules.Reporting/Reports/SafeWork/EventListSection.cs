using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>Every event in words, with its place in the attached record.</summary>
internal static class EventListSection
{
    private static readonly ImmutableArray<ColumnWidth> Widths =
    [
        ColumnWidth.Fixed(20),
        ColumnWidth.Fixed(76),
        ColumnWidth.Fixed(64),
        ColumnWidth.Share(),
        ColumnWidth.Fixed(62),
    ];

    public static IEnumerable<Block> Of(SafeWorkView view)
    {
        yield return Paragraph.Heading(
            2,
            "Events, and where each stands in the attached record",
            Palette.Heading
        );
        if (view.Events.IsEmpty)
        {
            yield return new Paragraph("The record has no make-safe or work events.", Palette.Small);
            yield break;
        }
        yield return new Table(
            Widths,
            new TableRow([Head("no."), Head("time"), Head("who"), Head("event"), Head("record.json")]),
            [.. view.Events.Select(one => RowOf(view, one))],
            new TableStyle(3, 0.9, Palette.HairLine) { HeaderLine = Palette.Outline }
        );
    }

    private static TableRow RowOf(SafeWorkView view, NumberedEvent one) =>
        new([
            new Paragraph(one.Number.ToString(CultureInfo.InvariantCulture), Palette.TinyBold),
            new Paragraph(view.When(one.Event.At), Palette.Tiny),
            new Paragraph(one.Event.Actor.Text, Palette.Tiny),
            new Paragraph(view.Job.Say(EventPrint.Told(one.Event)), Palette.Tiny),
            new Paragraph(view.PointerOf(one), Palette.TinyQuiet),
        ]);

    private static Paragraph Head(string text) => new(text, Palette.TinyQuiet);
}
