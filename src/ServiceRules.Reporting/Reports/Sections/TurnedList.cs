using System.Globalization;
using ServiceRules.Domain.Records;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Reporting.Reports.Sections;

/// <summary>The bench log of a unit in the order of the work: read, turned, ground, fitted.</summary>
internal static class TurnedList
{
    public static IEnumerable<Block> Of(JobView job, UnitView unit)
    {
        if (unit.Work.Entries.IsEmpty)
        {
            yield break;
        }
        yield return Paragraph.Heading(3, "What was read and turned, in order", Palette.SubHeading);
        var entries = unit.Work.Entries;
        var lines = entries
            .Select(
                (entry, index) => Line(job, entry, index + 1, index == 0 || entries[index - 1].By != entry.By)
            )
            .ToList();
        yield return Columned.Of(lines, Columns);
    }

    private const int Columns = 3;

    private static Paragraph Line(JobView job, BenchEntry entry, int number, bool byOther) =>
        new([
            new Span(string.Create(CultureInfo.InvariantCulture, $"{number} "), Palette.TinyQuiet),
            new Span(
                job.Say(BenchWords.Told(entry)) + BenchWords.When(entry, byOther),
                entry is Reading ? Palette.Tiny : Palette.TinyBold
            ),
        ]);
}
