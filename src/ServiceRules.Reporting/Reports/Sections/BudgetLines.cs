using System.Globalization;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Reporting.Reports.Sections;

/// <summary>
/// What the uncertainty of each quantity that was read is made of, one line for each make-up: the place with the largest,
/// since the others differ by their length at most. Every place has its own in the attached assessment.
/// </summary>
internal static class BudgetLines
{
    public static IEnumerable<Block> Of(JobView job)
    {
        var lines = (
            from unit in job.Units
            from place in unit.Places
            where place is { Kind: FigureKind.Itself, Comparison: { IsAtEnd: false, Budget: not null } }
            let told = (unit, place.Comparison)
            group told by (
                place.Comparison.Quantity,
                string.Join(' ', place.Comparison.Budget!.Contributions.Select(line => line.Source))
            ) into alike
            select Line([.. alike])
        ).ToList();
        if (lines.Count > 0)
        {
            yield return new Paragraph(
                $"{string.Join(" ", lines)} That of every place, end and difference: in the attached assessment.",
                Palette.Tiny
            );
        }
    }

    private static string Line(List<(UnitView Unit, Comparison Comparison)> alike)
    {
        var places = alike
            .Select(one => (Unit: one.Unit.Work.Id.Text, one.Comparison.Place))
            .Distinct()
            .Count();
        var (unit, largest) = alike.MaxBy(one => one.Comparison.Budget!.Expanded);
        var of =
            places > 1
                ? string.Create(CultureInfo.InvariantCulture, $"largest of {places} places: ")
                : string.Empty;
        return $"Uncertainty of {ReportWords.Of(largest.Quantity)} ({of}unit {unit.Work.Id.Text}, {largest.Place}): {BudgetWords.Of(largest.Budget!, unit.SystemOf(largest))}.";
    }
}
