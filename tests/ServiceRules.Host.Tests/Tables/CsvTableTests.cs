using System.Collections.Immutable;
using System.Text;
using ServiceRules.Application.Importing;
using ServiceRules.Formats.Imports;
using ServiceRules.Host.Tables;

namespace ServiceRules.Host.Tests.Tables;

public sealed class CsvTableTests
{
    private static readonly TableLayout Semicolons = TableLayout.Usual with
    {
        Separator = CellSeparator.Semicolon,
    };

    [Theory]
    [InlineData("\r\n")]
    [InlineData("\n")]
    public void Read_QuotesBlanksAndEmptyRows_AreAsRfc4180HasThem(string end)
    {
        var text = string.Join(
            end,
            "\"Job\", Note ",
            "J-1,\"said \"\"so\"\", twice\"",
            "",
            ",",
            "J-2,\"a\nb\"",
            ""
        );

        var table = Read(text);

        Assert.Equal<string>(["Job", "Note"], table.Headings);
        Assert.Equal([(2, "J-1", "said \"so\", twice"), (5, "J-2", "a\nb")], Rows(table));
        Assert.Equal(2, table.EmptyRows);
    }

    [Fact]
    public void Read_ByteOrderMarkAndSemicolons_AreTaken()
    {
        var table = Read("\uFEFFJob;Höhe\nJ-1;3,80\n", Semicolons);

        Assert.Equal<string>(["Job", "Höhe"], table.Headings);
        Assert.Equal([(2, "J-1", "3,80")], Rows(table));
    }

    [Fact]
    public void Read_HeadingsBelowTitles_CountRowsFromTheTop()
    {
        var table = Read(
            "Heights of the week\n\nJob,Note\nJ-1,x\n",
            TableLayout.Usual with
            {
                HeadingRow = 3,
            }
        );

        Assert.Equal(3, table.HeadingRow);
        Assert.Equal([(4, "J-1", "x")], Rows(table));
    }

    [Theory]
    // A decimal comma in a file that commas separate: without this the figures would be 3 and 82.
    [InlineData("Job,Left,Right\nJ-1,3,80,3,82\n", 2, "the row has 5 cells, and there are 3 headings")]
    [InlineData("Job,Left,Right\nJ-1,3,80\nJ-2,1\n", 3, "the row has 2 cells, and there are 3 headings")]
    [InlineData("Job,Note\nJ-1,\"open\nJ-2,x\n", 2, "a quotation mark")]
    [InlineData("Job,Note\nJ-1,in \"the\" middle\n", 2, "a quotation mark")]
    [InlineData("Job,Note\nJ-1,\"a\"b\n", 2, "a quotation mark")]
    public void Read_RowThatIsNotWhole_RefusesTheTable(string text, int row, string why)
    {
        var problem = Refused(Encoding.UTF8.GetBytes(text))[0];

        Assert.Equal(row, problem.Row);
        Assert.StartsWith(why, problem.What, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_WrongRows_AreAllTold() =>
        Assert.Equal(
            [2, 4],
            Refused("Job,Note\nJ-1\nJ-2,x\nJ-3,x,y\n"u8.ToArray()).Select(problem => problem.Row)
        );

    [Fact]
    public void Read_BytesThatAreNotUtf8_AreRefusedWithTheirLine()
    {
        var problem = Refused([.. "Job,Note\nJ-1,"u8, 0xE9, .. "t\n"u8]).Single();

        Assert.Equal(("line 2 is not in UTF-8", "E9"), (problem.What, problem.Found));
    }

    [Fact]
    public void Read_OtherKindsOfFile_AreRefusedInWords()
    {
        Assert.Contains(
            "UTF-16",
            Refused([0xFF, 0xFE, .. Encoding.Unicode.GetBytes("Job")])[0].What,
            StringComparison.Ordinal
        );
        Assert.Contains(
            "old kind",
            Refused([0xD0, 0xCF, 0x11, 0xE0, 0xA1])[0].What,
            StringComparison.Ordinal
        );
        Assert.Contains("no row 1", Refused([])[0].What, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_MoreThanAnyTableHolds_IsRefused()
    {
        Assert.Contains(
            "larger than any table",
            Refused(new byte[TableLimits.Bytes + 1])[0].What,
            StringComparison.Ordinal
        );
        Assert.Contains(
            "longer than any",
            Refused(
                Encoding.UTF8.GetBytes("A\n" + string.Concat(Enumerable.Repeat("1\n", TableLimits.Rows + 1)))
            )[0].What,
            StringComparison.Ordinal
        );
        Assert.Contains(
            "too many columns",
            Refused(Encoding.UTF8.GetBytes(new string(',', TableLimits.Columns)))[0].What,
            StringComparison.Ordinal
        );
        Assert.Contains(
            "holds too much",
            Refused(Encoding.UTF8.GetBytes("A\n" + new string('x', TableLimits.CellCharacters + 1)))[0].What,
            StringComparison.Ordinal
        );
    }

    internal static IEnumerable<(int, string, string)> Rows(Table table) =>
        table.Rows.Select(row => (row.Number, row.Cells[0].Text, row.Cells[1].Text));

    private static Table Read(string text, TableLayout? layout = null) =>
        Assert
            .IsType<TableOutcome.Read>(
                TableFile.Read(Encoding.UTF8.GetBytes(text), layout ?? TableLayout.Usual)
            )
            .Table;

    private static ImmutableArray<RowProblem> Refused(byte[] bytes) =>
        Assert.IsType<TableOutcome.Refused>(TableFile.Read(bytes, TableLayout.Usual)).Problems;
}
