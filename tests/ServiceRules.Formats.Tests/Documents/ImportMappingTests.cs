using System.Text;
using ServiceRules.Formats.Imports;

namespace ServiceRules.Formats.Tests.Documents;

public sealed class ImportMappingTests
{
    /// <summary>Every member once.</summary>
    internal const string Sample = """
        {
          "format": "import-mapping/1",
          "table": { "separator": "semicolon", "decimals": "comma", "headingRow": 2, "sheet": "Heights" },
          "groupBy": "Job",
          "record": [
            { "to": "/id", "column": "Job" },
            { "to": "/date", "column": "Date", "as": "day", "pattern": "dd/MM/yyyy" },
            { "to": "/machine/hours", "column": "Hours", "as": "figure", "unit": "h", "decimals": 1 },
            { "to": "/tasks", "column": "Tasks", "as": "words", "between": "+", "words": { "HC": "height-check" } },
            { "to": "/signOff/at", "column": "Date", "and": "Signed", "as": "time", "pattern": "dd/MM/yyyy HH:mm", "offset": "+01:00" },
            { "to": "/electricalWork", "given": "false", "as": "flag" }
          ],
          "lists": [
            {
              "in": "/units",
              "when": { "column": "What", "is": ["height"] },
              "key": ["Unit"],
              "values": [{ "to": "/id", "column": "Unit" }, { "to": "/position", "column": "Position", "as": "number" }],
              "lists": [{ "in": "/entries", "when": { "column": "Left" }, "values": [{ "to": "/read", "given": "height-of-cut" }] }]
            }
          ],
          "leftOut": ["Remarks"]
        }
        """;

    [Fact]
    public void Read_Sample_LosesNothing()
    {
        var read = ImportMappingFormat.Current.Read(Encoding.UTF8.GetBytes(Sample));

        Assert.True(read.TryGet(out var mapping, out var problems), problems.ToString());
        Assert.Equal(
            ["Job", "Date", "Hours", "Tasks", "Signed", "Unit", "What", "Position", "Left"],
            mapping!.Columns
        );
        Assert.True(
            System.Text.Json.Nodes.JsonNode.DeepEquals(
                System.Text.Json.Nodes.JsonNode.Parse(Sample),
                System.Text.Json.Nodes.JsonNode.Parse(ImportMappingFormat.Current.Write(mapping))
            )
        );
    }

    [Theory]
    [InlineData("\"dd/MM/yyyy\" }", "\"dd/MM/yy\" }", "/record/1/pattern", "value.contradiction")]
    [InlineData("\"dd/MM/yyyy\" }", "\"dd/mm/yyyy\" }", "/record/1/pattern", "value.contradiction")]
    [InlineData("\"dd/MM/yyyy\" }", "\"dd/MMM/yyyy\" }", "/record/1/pattern", "value.contradiction")]
    [InlineData("yyyy HH:mm", "yyyy hh:mm", "/record/4/pattern", "value.contradiction")]
    [InlineData("yyyy HH:mm", "yyyy HH:mm zzz", "/record/4/offset", "value.contradiction")]
    [InlineData("\"unit\": \"h\", ", "", "/record/2/as", "name.missing")]
    [InlineData("\"/machine/hours\"", "\"/id\"", "/record", "value.contradiction")]
    [InlineData("\"/machine/hours\"", "\"/id/x\"", "/record", "value.contradiction")]
    [InlineData(
        "\"to\": \"/id\", \"column\": \"Job\"",
        "\"to\": \"/complaint\", \"column\": \"Job\"",
        "/record",
        "value.contradiction"
    )]
    [InlineData("\"/machine/hours\"", "\"/units/0/id\"", "/record/2/to", "text.pattern")]
    [InlineData("[\"Remarks\"]", "[\"Left\"]", "/leftOut", "value.contradiction")]
    [InlineData(
        "\"given\": \"false\"",
        "\"given\": \"false\", \"column\": \"X\"",
        "/record/5",
        "name.missing"
    )]
    public void Read_MappingThatContradictsItself_IsRefusedWithThePlace(
        string from,
        string to,
        string pointer,
        string code
    )
    {
        Assert.Contains(from, Sample, StringComparison.Ordinal);

        var read = ImportMappingFormat.Current.Read(
            Encoding.UTF8.GetBytes(Sample.Replace(from, to, StringComparison.Ordinal))
        );

        Assert.False(read.TryGet(out _, out var problems));
        Assert.Equal((pointer, code), (problems.Told[0].Pointer, problems.Told[0].Code));
    }
}
