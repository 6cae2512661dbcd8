using System.Text;

namespace ServiceRules.Application.Tests.Library.Diagnostics;

/// <summary>What can be wrong with one document, whatever it is: a sheet, rules, cases, registers, a record.</summary>
internal static class DocumentExamples
{
    private const string Sheet = "sheets/reel-200-6-760.sheet.json";
    private const string Rules = "base/release.rules.json";
    private const string Season = "site-alder-reach/setting-orders/S-2026-season.json";

    public static IEnumerable<DiagnosticExample> All =>
        [
            Bytes(
                "document.size",
                "Nothing real is so large, and a file without end must not fill the memory.",
                "a sheet of at most 2 MiB",
                "a sheet of 3 MiB",
                new byte[3 * 1024 * 1024]
            ),
            Bytes(
                "document.encoding",
                "In another encoding `µ` and `é` come out as something else. Save as UTF-8; a byte order mark is skipped.",
                "the same text saved as UTF-8",
                "a text saved as UTF-16",
                [
                    .. Encoding.Unicode.GetPreamble(),
                    .. Encoding.Unicode.GetBytes("{ \"format\": \"limit-sheet/1\" }"),
                ]
            ),
            new(
                "document.syntax",
                "A text that is no JSON is not guessed at: nothing else of the file is told until it is mended.",
                Sheet,
                "\"blades\": 6,",
                "\"blades\": 6"
            ),
            Bytes(
                "document.depth",
                "The deepest document needs about a dozen levels; more is a slip or an attack.",
                "at most 32 objects and lists within one another",
                "40 lists within one another",
                Encoding.UTF8.GetBytes(
                    "{ \"format\": \"limit-sheet/1\", \"quantities\": "
                        + new string('[', 40)
                        + new string(']', 40)
                        + " }"
                )
            ),
            Bytes(
                "document.values",
                "The count of values bounds the memory where the bytes do not.",
                "at most 100 000 values",
                "a list of 100 001 numbers",
                Encoding.UTF8.GetBytes(
                    "{ \"format\": \"limit-sheet/1\", \"quantities\": ["
                        + string.Join(',', Enumerable.Repeat("0", 100_001))
                        + "] }"
                )
            ),
            new(
                "document.format",
                "Each document says what it is and by which version it was written; another kind or a later version is never read as this one.",
                Sheet,
                "\"format\": \"limit-sheet/1\",",
                "\"format\": \"limit-sheet/2\","
            ),
            new(
                "name.unknown",
                "A misspelt member would be left out silently, and with it the limit or condition that it states.",
                Sheet,
                "\"sideToSide\": \"0.3 mm\",",
                "\"sideToSides\": \"0.3 mm\","
            ),
            new(
                "name.duplicate",
                "Of two members of one name a reader takes one, and not every reader the same.",
                Sheet,
                "\"blades\": 6,",
                "\"blades\": 6,\n\"blades\": 8,"
            ),
            new(
                "name.missing",
                "What must be said is not guessed.",
                Rules,
                "\"severity\": \"hold\",\n\"basis\"",
                "\"basis\""
            ),
            new(
                "value.type",
                "A quantity is a text with its unit, a count a number, a list a list; `null` is nothing: leave the member out.",
                Sheet,
                "\"blades\": 6,",
                "\"blades\": \"six\","
            ),
            new(
                "value.choice",
                "The vocabulary is closed, so that one thing has one word.",
                Rules,
                "\"severity\": \"hold\",",
                "\"severity\": \"high\","
            ),
            new(
                "value.range",
                "No reel has 600 blades: a number beyond reason is a slip of the pen.",
                Sheet,
                "\"blades\": 6,",
                "\"blades\": 600,"
            ),
            new(
                "value.unreadable",
                "A length keeps its unit and its printed digits; a word beside them is not a figure.",
                Season,
                "\"from\": \"2026-03-01\",",
                "\"from\": \"2026-02-30\","
            ),
            new(
                "value.contradiction",
                "Two things that the document says cannot both be.",
                Season,
                "\"until\": \"2026-10-31\",",
                "\"until\": \"2026-02-01\","
            ),
            new(
                "text.length",
                "A text is for one line of a report.",
                Rules,
                "\"title\": \"Signed off\",",
                "\"title\": \"\","
            ),
            new(
                "text.pattern",
                "A quantity is written as people print it, with one of the known units.",
                Sheet,
                "\"sideToSide\": \"0.3 mm\",",
                "\"sideToSide\": \"0.3 cm\","
            ),
            new(
                "text.surrogate",
                "Half a character is none: such a text cannot be written again.",
                Rules,
                "\"title\": \"Signed off\",",
                "\"title\": \"Signed \\ud83d\","
            ),
            new(
                "list.length",
                "An order of one step is no order.",
                "base/rollers-and-height.rules.json",
                "\"order\": [\"bearings\", \"bedknife-position\", \"clearance\", \"front-roller\", \"height-range\", \"height\", \"groomer\"]",
                "\"order\": [\"bearings\"]"
            ),
            new(
                "reference.dangling",
                "A reading names its gauge: with a gauge that the record does not list, nobody knows how far the reading may be off. (Shown on a record; `check FILE` tells it.)",
                "base/fixtures/height-check.record.json",
                "{ \"read\": \"height-of-cut\", \"station\": \"left\", \"value\": \"3.80 mm\", \"with\": \"HG-01\" },",
                "{ \"read\": \"height-of-cut\", \"station\": \"left\", \"value\": \"3.80 mm\", \"with\": \"HG-10\" },"
            ),
            new(
                "reference.duplicate",
                "Two things of one name cannot be told apart by whoever refers to them.",
                Rules,
                "\"id\": \"signed-off\",",
                "\"id\": \"followed-up\","
            ),
        ];

    private static DiagnosticExample Bytes(string code, string why, string good, string bad, byte[] bytes) =>
        new(code, why, "sheets/other.sheet.json", good, bad)
        {
            Spoil = folder => File.WriteAllBytes(folder.At("sheets/other.sheet.json"), bytes),
        };
}
