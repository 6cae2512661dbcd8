using System.Text;
using System.Text.Json.Nodes;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Importing;
using ServiceRules.Application.Library;
using ServiceRules.Formats.Imports;
using ServiceRules.TestKit;

namespace ServiceRules.Application.Tests.Importing;

public sealed class MappedTableTests
{
    private const string Units = """
        {
          "in": "/units", "key": ["Unit"], "when": { "column": "Unit" },
          "values": [{ "to": "/id", "column": "Unit" }, { "to": "/sheet", "given": "reel-125-9-510" }],
          "lists": [
            {
              "in": "/entries", "when": { "column": "Left" },
              "values": [
                { "to": "/read", "given": "height-of-cut" },
                { "to": "/station", "given": "left" },
                { "to": "/value", "column": "Left", "as": "figure", "unit": "mm" }
              ]
            }
          ]
        }
        """;

    private const string Head = """
        { "to": "/id", "column": "Job" },
        { "to": "/date", "column": "Date" },
        { "to": "/machine/id", "given": "M-02" },
        { "to": "/tasks", "given": "height-check", "as": "words" }
        """;

    private const string People = """
        {
          "in": "/people",
          "values": [{ "to": "/id", "given": "tech-02" }, { "to": "/role", "given": "performs" }]
        }
        """;

    private static readonly string[] Headings = ["Job", "Date", "Unit", "Left"];

    private static readonly Lazy<AssessRecord> Judging = new(() =>
    {
        var rules = RuleFolder.Load(ReferenceFiles.InRepository("rules"));
        return new AssessRecord(rules.Book, rules.Site!);
    });

    private const string Usual =
        $$"""{ "groupBy": "Job", "record": [{{Head}}], "lists": [{{People}}, {{Units}}] }""";

    [Fact]
    public void Of_RowsOfTwoRecordsApart_ComeTogetherByTheirColumn()
    {
        var mapped = Mapped(
            Usual,
            ["J-1", "2026-04-13", "U-1", "3.80"],
            ["J-2", "2026-04-14", "U-1", "3.90"],
            ["J-1", "2026-04-13", "U-2", "3.70"],
            ["J-1", "", "U-1", "3.81"]
        );

        Assert.Equal(["J-1", "J-2"], mapped.Records.Select(record => record.Id));
        Assert.All(mapped.Records, record => Assert.Empty(record.Problems));
        AssertJson(
            """
            {
              "format": "service-record/1", "id": "J-1", "date": "2026-04-13",
              "machine": { "id": "M-02" }, "tasks": ["height-check"],
              "people": [{ "id": "tech-02", "role": "performs" }],
              "units": [
                { "id": "U-1", "sheet": "reel-125-9-510", "entries": [
                  { "read": "height-of-cut", "station": "left", "value": "3.80 mm" },
                  { "read": "height-of-cut", "station": "left", "value": "3.81 mm" } ] },
                { "id": "U-2", "sheet": "reel-125-9-510", "entries": [
                  { "read": "height-of-cut", "station": "left", "value": "3.70 mm" } ] }
              ]
            }
            """,
            mapped.Records[0]
        );
        Assert.All(
            mapped.Records,
            record => Assert.IsType<AssessOutcome.Judged>(Judging.Value.Assess(record.Body))
        );
    }

    [Fact]
    public void Of_RowsOfOneRecordThatDiffer_AreToldWithBothRows()
    {
        var problem = Assert.Single(
            Mapped(Usual, ["J-1", "2026-04-13", "U-1", "3.80"], ["J-1", "2026-04-14", "U-1", "3.81"])
                .Records.Single()
                .Problems
        );

        Assert.Equal(
            (3, "Date", "B", "/date"),
            (problem.Row, problem.Column, problem.Letter, problem.Pointer)
        );
        Assert.Equal(
            "row 3, column B `Date`: rows that belong together differ: row 2 says `2026-04-13` (for /date); found `2026-04-14`; "
                + "accepted: the same in each row of a record or an item, or nothing",
            problem.ToString()
        );
    }

    [Fact]
    public void Of_ProblemsOfTheRecordItself_StandAtTheirCells()
    {
        var record = Mapped(Usual, ["J-1", "2026-02-30", "U-1", "3.80"], ["J-1", "", "U-2", "99999"])
            .Records.Single();
        var refused = Assert.IsType<AssessOutcome.Refused>(Judging.Value.Assess(record.Body));

        Assert.Equal(
            [(2, "Date", "/date"), (3, "Left", "/units/1/entries/0/value")],
            record.Of(refused.Problems).Select(problem => (problem.Row, problem.Column!, problem.Pointer!))
        );
    }

    [Fact]
    public void Of_MemberThatNoCellFills_IsToldAtTheRowOfItsItem()
    {
        var record = Mapped(
            Usual.Replace(
                """, { "to": "/sheet", "given": "reel-125-9-510" }""",
                "",
                StringComparison.Ordinal
            ),
            ["J-1", "2026-04-13", "U-1", "3.80"],
            ["J-1", "", "U-2", "3.80"]
        )
            .Records.Single();
        var refused = Assert.IsType<AssessOutcome.Refused>(Judging.Value.Assess(record.Body));

        Assert.Equal([2, 3], record.Of(refused.Problems).Select(problem => problem.Row));
    }

    [Theory]
    [InlineData("", "3.80", "3.80 mm")]
    [InlineData("", "3.80 mm", "3.80 mm")]
    [InlineData("", "3.80mm", "3.80 mm")]
    [InlineData("", "-0.05", "-0.05 mm")]
    [InlineData("", "1/16", "1/16 mm")]
    [InlineData("comma", "3,80", "3.80 mm")]
    public void Figure_WrittenSoundly_KeepsItsDigits(string decimals, string cell, string expected) =>
        Assert.Equal(expected, Value(Mapped(WithDecimals(decimals), ["J-1", "2026-04-13", "U-1", cell])));

    [Theory]
    [InlineData("", "3,80", "a `,` stands in this figure")]
    [InlineData("", "1,234.5", "a `,` stands in this figure")]
    [InlineData("comma", "3.80", "a `.` stands in this figure")]
    [InlineData("comma", "1.234,5", "a `.` stands in this figure")]
    [InlineData("", "3.8.0", "this is no figure")]
    [InlineData("", "3.80 in", "this is no figure")]
    [InlineData("", "+3.8", "this is no figure")]
    [InlineData("", "1e3", "this is no figure")]
    [InlineData("", "=A1", "this is a formula written as text")]
    public void Figure_ThatCouldMeanSomethingElse_IsRefused(string decimals, string cell, string why)
    {
        var problem = Assert.Single(
            Mapped(WithDecimals(decimals), ["J-1", "2026-04-13", "U-1", cell]).Records.Single().Problems
        );

        Assert.Contains(why, problem.What, StringComparison.Ordinal);
        Assert.Equal((2, "Left", cell), (problem.Row, problem.Column, problem.Found));
    }

    [Theory]
    // Serials by hand: 1 January 2000 is 36526 counted from 1900 (ISO/IEC 29500-1:2016, 18.17.4.1); 13 April 2026 is 9 599 days later.
    [InlineData("46125", false, "2026-04-13")]
    [InlineData("44663", true, "2026-04-13")]
    public void Day_NumberOfAWorkbook_IsTheDay(string serial, bool countsFrom1904, string expected)
    {
        var mapping = Mapping(
            Usual.Replace(
                "\"column\": \"Date\"",
                "\"column\": \"Date\", \"as\": \"day\"",
                StringComparison.Ordinal
            )
        );
        var table = Table(["J-1", "", "U-1", "3.80"]) with { CountsFrom1904 = countsFrom1904 };
        var row = table.Rows[0];
        table = table with
        {
            Rows = [row with { Cells = row.Cells.SetItem(1, new TableCell(serial, CellKind.Moment)) }],
        };

        var record = MappedTable.Of(mapping, table).Records.Single();

        Assert.Empty(record.Problems);
        Assert.Equal(expected, (string?)Document(record)["date"]);
    }

    [Theory]
    [InlineData("dd/MM/yyyy", "13/04/2026", "2026-04-13")]
    [InlineData("d.M.yyyy", "3.4.2026", "2026-04-03")]
    [InlineData("M/d/yyyy", "4/13/2026", "2026-04-13")]
    public void Day_OfItsPattern_IsTheDay(string pattern, string cell, string expected) =>
        Assert.Equal(expected, (string?)Document(Dated(pattern, cell).Records.Single())["date"]);

    [Theory]
    [InlineData("dd/MM/yyyy", "04/13/2026", "this is no day of the pattern")]
    [InlineData("dd/MM/yyyy", "31/02/2026", "this is no day of the pattern")]
    [InlineData("dd/MM/yyyy", "13/04/26", "this is no day of the pattern")]
    [InlineData("dd/MM/yyyy", "46125", "this is the number by which a program for tables counts days")]
    public void Day_OfNoSuchPattern_IsRefused(string pattern, string cell, string why)
    {
        var problem = Assert.Single(Dated(pattern, cell).Records.Single().Problems);

        Assert.Equal((why, $"`{pattern}`"), (problem.What, problem.Accepted));
    }

    [Theory]
    [InlineData(CellKind.Formula, "this cell holds a formula")]
    [InlineData(CellKind.Merged, "this cell is merged with others")]
    [InlineData(CellKind.Fault, "this cell holds an error")]
    [InlineData(CellKind.Moment, "this cell is a day or a time")]
    public void Cell_ThatTellsNothingSure_IsRefusedOnce(CellKind kind, string why)
    {
        var table = Table(["J-1", "2026-04-13", "U-1", ""]);
        var row = table.Rows[0];
        table = table with { Rows = [row with { Cells = row.Cells.SetItem(3, new TableCell("3.8", kind)) }] };

        var problem = Assert.Single(MappedTable.Of(Mapping(Usual), table).Records.Single().Problems);

        Assert.StartsWith(why, problem.What, StringComparison.Ordinal);
    }

    [Fact]
    public void Number_OfAWorkbook_HasTheDecimalsThatTheMappingSays()
    {
        var mapping = Mapping(
            Usual.Replace("\"unit\": \"mm\"", "\"unit\": \"mm\", \"decimals\": 2", StringComparison.Ordinal)
        );

        Assert.Equal("3.80 mm", Value(With("3.8")));
        // What remains of 3.8 in binary is no digit that anybody wrote.
        Assert.Equal("3.80 mm", Value(With("3.7999999999999998")));
        Assert.Contains(
            "more than 2 decimals",
            With("3.805").Records[0].Problems.Single().What,
            StringComparison.Ordinal
        );

        MappedTable With(string number)
        {
            var table = Table(["J-1", "2026-04-13", "U-1", ""]);
            var row = table.Rows[0];
            return MappedTable.Of(
                mapping,
                table with
                {
                    Rows =
                    [
                        row with
                        {
                            Cells = row.Cells.SetItem(3, new TableCell(number, CellKind.Number)),
                        },
                    ],
                }
            );
        }
    }

    [Fact]
    public void Of_RowOfNoRecord_RefusesTheTable()
    {
        var mapped = Mapped(Usual, ["J-1", "2026-04-13", "U-1", "3.80"], ["", "", "U-2", "3.80"]);

        Assert.Empty(mapped.Records);
        Assert.Equal((3, "Job"), (mapped.Faults.Single().Row, mapped.Faults.Single().Column));
    }

    [Fact]
    public void Of_HeadingsThatAreNotThoseOfTheMapping_AreAllTold()
    {
        var table = Table(["J-1", "2026-04-13", "U-1", "3.80"]) with
        {
            Headings = ["Job", "Datum", "Unit", "Unit"],
        };

        var faults = MappedTable.Of(Mapping(Usual), table).Faults;

        Assert.Equal(
            [
                "row 1, column `Date`: there is no such column; accepted: a column with this heading; there are `Job`, `Datum`, `Unit`, `Unit`",
                "row 1, column `Left`: there is no such column; accepted: a column with this heading; there are `Job`, `Datum`, `Unit`, `Unit`",
                "row 1, column B `Datum`: the mapping does not say where this column goes; accepted: a place for it, or its heading in "
                    + "`leftOut` of the mapping",
                "row 1, column D `Unit`: this is the heading of column C too; accepted: each heading once",
            ],
            faults.Select(fault => fault.ToString())
        );
    }

    [Fact]
    public void Of_TwoGroupsOfOneIdentity_RefusesTheSecond()
    {
        var mapping = Usual.Replace(
            "\"groupBy\": \"Job\"",
            "\"groupBy\": \"Unit\"",
            StringComparison.Ordinal
        );

        var records = Mapped(
            mapping,
            ["J-1", "2026-04-13", "U-1", "3.80"],
            ["J-1", "2026-04-13", "U-2", "3.80"]
        ).Records;

        Assert.Empty(records[0].Problems);
        Assert.Contains("begins in row 2", records[1].Problems.Single().What, StringComparison.Ordinal);
    }

    [Fact]
    public void Words_TextThatTheMappingDoesNotKnow_IsRefusedWithThoseItKnows()
    {
        var mapping = Usual.Replace(
            "\"given\": \"height-check\", \"as\": \"words\"",
            "\"column\": \"Unit\", \"as\": \"words\", \"between\": \"+\", \"words\": { \"HC\": \"height-check\", \"TU\": \"touch-up\" }",
            StringComparison.Ordinal
        );

        Assert.Equal(
            ["height-check", "touch-up"],
            Document(Mapped(mapping, ["J-1", "2026-04-13", "HC + TU", "3.80"]).Records.Single())["tasks"]!
                .AsArray()
                .Select(word => (string?)word)
        );
        var problem = Mapped(mapping, ["J-1", "2026-04-13", "HC+XX", "3.80"])
            .Records.Single()
            .Problems.Single();
        Assert.Equal(("XX", "`HC`, `TU`"), (problem.Found, problem.Accepted));
    }

    [Fact]
    public void Of_CellThatNoItemTakes_IsRefusedSoThatNoRowIsLostUnseen()
    {
        var mapping = Usual.Replace(
            "\"when\": { \"column\": \"Unit\" }",
            "\"when\": { \"column\": \"Unit\", \"is\": [\"U-1\", \"U-2\"] }",
            StringComparison.Ordinal
        );

        var problems = Mapped(mapping, ["J-1", "2026-04-13", "U-1", "3.80"], ["J-1", "", "U-9", "3.80"])
            .Records.Single()
            .Problems;

        Assert.Equal(
            [
                (3, "Unit", "`U-1`, `U-2`, or nothing"),
                (3, "Left", "an empty cell, or a `when` that names such rows"),
            ],
            problems.Select(problem => (problem.Row, problem.Column!, problem.Accepted))
        );
    }

    private static string WithDecimals(string decimals) =>
        decimals.Length == 0
            ? Usual
            : Usual.Replace(
                "{ \"groupBy\"",
                $"{{ \"table\": {{ \"decimals\": \"{decimals}\" }}, \"groupBy\"",
                StringComparison.Ordinal
            );

    private static MappedTable Dated(string pattern, string cell) =>
        Mapped(
            Usual.Replace(
                "\"column\": \"Date\"",
                $"\"column\": \"Date\", \"as\": \"day\", \"pattern\": \"{pattern}\"",
                StringComparison.Ordinal
            ),
            ["J-1", cell, "U-1", "3.80"]
        );

    private static string? Value(MappedTable mapped) =>
        (string?)Document(mapped.Records.Single())["units"]![0]!["entries"]![0]!["value"];

    private static MappedTable Mapped(string mapping, params string[][] rows) =>
        MappedTable.Of(Mapping(mapping), Table(rows));

    private static Table Table(params string[][] rows) =>
        new(
            [.. Headings],
            [
                .. rows.Select(
                    (row, at) =>
                        new TableRow(at + 2, [.. row.Select(text => new TableCell(text, CellKind.Text))])
                ),
            ],
            0
        );

    private static ImportMapping Mapping(string text)
    {
        var read = ImportMappingFormat.Current.Read(
            Encoding.UTF8.GetBytes("{ \"format\": \"import-mapping/1\"," + text.TrimStart()[1..])
        );
        Assert.True(read.TryGet(out var mapping, out var problems), problems.ToString());
        return mapping!;
    }

    private static JsonNode Document(MappedRecord record) => JsonNode.Parse(record.Body.Span)!;

    private static void AssertJson(string expected, MappedRecord record) =>
        Assert.True(
            JsonNode.DeepEquals(JsonNode.Parse(expected), Document(record)),
            Encoding.UTF8.GetString(record.Body.Span)
        );
}
