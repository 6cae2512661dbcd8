using System.Globalization;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Formats.Json;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Json.Source;
using ServiceRules.Rules.Model;

namespace ServiceRules.Formats.Records;

/// <summary>
/// What a record names outside itself: limit sheets, and with them the blades and width of each unit, and rules. The
/// record alone cannot tell whether they exist.
/// </summary>
public static class RecordReferences
{
    /// <summary>Every reference that the rule book does not answer, each at its place in the document.</summary>
    public static ProblemReport Check(ServiceRecord record, SourceDocument document, RuleBook book)
    {
        ArgumentNullException.ThrowIfNull(record);
        ArgumentNullException.ThrowIfNull(document);
        ArgumentNullException.ThrowIfNull(book);
        ProblemList problems = new();
        for (int at = 0; at < record.Units.Length; at++)
        {
            CheckUnit(record.Units[at], JsonPointer.Root.Member("units").Item(at), document, book, problems);
        }

        string[] rules =
        [
            .. book.Packs.SelectMany(pack => pack.Rules).Select(rule => rule.Id.Text).Distinct(),
        ];
        for (int at = 0; at < record.Releases.Length; at++)
        {
            JsonPointer place = JsonPointer.Root.Member("releases").Item(at).Member("rule");
            CheckName("rule", record.Releases[at].Rule, rules, place, document, problems);
        }

        return problems.ToReport();
    }

    private static void CheckUnit(
        UnitWork unit,
        JsonPointer place,
        SourceDocument document,
        RuleBook book,
        ProblemList problems
    )
    {
        string[] sheets = [.. book.Sheets.Select(sheet => sheet.Id.Text)];
        CheckName("limit sheet", unit.Sheet, sheets, place.Member("sheet"), document, problems);
        if (book.Sheet(unit.Sheet) is not { } held)
        {
            return;
        }

        for (int at = 0; at < unit.Entries.Length; at++)
        {
            if (unit.Entries[at] is Reading reading)
            {
                CheckReading(reading, place.Member("entries").Item(at), held, document, problems);
            }
        }
    }

    private static void CheckReading(
        Reading reading,
        JsonPointer place,
        LimitSheet sheet,
        SourceDocument document,
        ProblemList problems
    )
    {
        if (reading.Blade > sheet.Blades)
        {
            string most = string.Create(CultureInfo.InvariantCulture, $"1 to {sheet.Blades}");
            problems.Add(
                document.ProblemAt(
                    place.Member("blade"),
                    ProblemCode.OutOfRange,
                    "the reel has fewer blades",
                    most
                )
            );
        }

        if (
            reading.Station is Station.AtDistance { FromLeft: var station }
            && station.Value > WidthFor(sheet, station)
        )
        {
            problems.Add(
                document.ProblemAt(
                    place.Member("station"),
                    ProblemCode.OutOfRange,
                    "the station lies beyond the right end",
                    $"a distance up to the width, {sheet.Width}"
                )
            );
        }
    }

    private static Length WidthFor(LimitSheet sheet, PrintedLength station) => sheet.Width.In(station.System);

    private static void CheckName(
        string kind,
        string name,
        string[] known,
        JsonPointer place,
        SourceDocument document,
        ProblemList problems
    )
    {
        if (!known.Contains(name))
        {
            string accepted = WordList.OneOf(name, known, $"no {kind} is in force");
            string what = $"no such {kind} is in force";
            problems.Add(document.ProblemAt(place, ProblemCode.DanglingReference, what, accepted));
        }
    }
}
