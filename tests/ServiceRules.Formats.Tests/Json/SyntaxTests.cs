using System.Text;
using ServiceRules.Formats.Json;
using ServiceRules.Formats.Json.Source;
using ServiceRules.TestKit;

namespace ServiceRules.Formats.Tests.Json;

/// <summary>Against the published parsing files (see tests/reference/SOURCES.md, evidence/json-parsing) and by hand.</summary>
public sealed class SyntaxTests
{
    // Valid JSON by the grammar, and yet refused here on purpose: RFC 8259 section 4 leaves repeated names open.
    private static readonly string[] RepeatedNames =
    [
        "y_object_duplicated_key.json",
        "y_object_duplicated_key_and_value.json",
    ];

    public static TheoryData<string> Files(string prefix)
    {
        TheoryData<string> files = [];
        foreach (
            string path in Directory.GetFiles(
                ReferenceFiles.At("evidence", "json-parsing", "test_parsing"),
                prefix + "_*.json"
            )
        )
        {
            files.Add(Path.GetFileName(path));
        }

        return files;
    }

    [Theory]
    [MemberData(nameof(Files), "y")]
    public void TryRead_ValidByTheGrammar_IsAccepted(string file)
    {
        bool read = SourceDocument.TryRead(Bytes(file), ReadLimits.Record, out _, out ProblemReport problems);
        Assert.True(read, problems.ToString());
        if (RepeatedNames.Contains(file))
        {
            Assert.All(problems.Told, problem => Assert.Equal(ProblemCode.DuplicateName, problem.Code));
            Assert.Single(problems.Told);
        }
        else
        {
            Assert.True(problems.IsEmpty, problems.ToString());
        }
    }

    [Theory]
    [MemberData(nameof(Files), "n")]
    public void TryRead_InvalidByTheGrammar_IsOneProblemInsideTheDocument(string file)
    {
        byte[] bytes = Bytes(file);
        Assert.False(SourceDocument.TryRead(bytes, ReadLimits.Record, out _, out ProblemReport problems));
        Problem problem = Assert.Single(problems.Told);
        Assert.InRange(problem.Line, 1, bytes.Count(unit => unit == '\n') + 1);
        Assert.InRange(problem.Column, 1, bytes.Length + 1);
        Assert.NotEmpty(problem.What);
        Assert.NotEmpty(problem.Accepted);
        Assert.DoesNotContain("System.", problem.ToString(), StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Files), "i")]
    public void TryRead_LeftOpenByTheGrammar_EndsInAnAnswer(string file)
    {
        bool read = SourceDocument.TryRead(
            Bytes(file),
            ReadLimits.Record,
            out SourceDocument? document,
            out var problems
        );
        Assert.True(read || problems.Told.Length == 1);
        bool surrogate = file.Contains("surrogate", StringComparison.Ordinal) && read;
        if (surrogate && document!.Root.Kind == SourceKind.List)
        {
            Assert.Contains(document.Root.Children, child => !child.IsWellFormed);
        }
    }

    [Fact]
    public void Files_TheWholeSet_IsThere()
    {
        Assert.Equal(95, Files("y").Count);
        Assert.Equal(188, Files("n").Count);
        Assert.Equal(35, Files("i").Count);
    }

    [Theory]
    [InlineData("{\n  \"a\": 1,\n}", 3, 1, "there is a comma after the last one", "}")]
    [InlineData("{\n  \"a\": 'x'\n}", 2, 8, "this is not JSON", "'")]
    [InlineData("{\n  // hm\n}", 2, 3, "JSON has no comments", "/")]
    [InlineData("{ \"a\": 1", 1, 9, "the document ends too early", "end of document")]
    [InlineData("", 1, 1, "the document ends too early", "end of document")]
    [InlineData("{} x", 1, 4, "this is not JSON", "x")]
    [InlineData("[\"é\\x\"]", 1, 5, "this escape is not known", "\\x")]
    [InlineData("[\"µm\n\"]", 1, 5, "this is not JSON", "\\n")]
    public void TryRead_SyntaxError_SaysWhereAndWhat(
        string text,
        int line,
        int column,
        string what,
        string found
    )
    {
        SourceDocument.TryRead(
            Encoding.UTF8.GetBytes(text),
            ReadLimits.Record,
            out _,
            out ProblemReport problems
        );
        Problem problem = Assert.Single(problems.Told);
        Assert.Equal(
            (ProblemCode.Syntax, line, column, what, found),
            (problem.Code, problem.Line, problem.Column, problem.What, problem.Found)
        );
    }

    [Fact]
    public void TryRead_ByteOrderMark_IsSkippedAndNotCounted()
    {
        byte[] marked = [0xEF, 0xBB, 0xBF, .. "{\"a\":1}"u8];
        Assert.True(SourceDocument.TryRead(marked, ReadLimits.Record, out SourceDocument? document, out _));
        Assert.Equal(new SourcePosition(1, 2), document.PositionOf(JsonPointer.Root.Member("a")));
    }

    [Fact]
    public void TryRead_Utf16_SaysSo()
    {
        byte[] wide = [0xFF, 0xFE, .. Encoding.Unicode.GetBytes("{}")];
        Assert.False(SourceDocument.TryRead(wide, ReadLimits.Record, out _, out ProblemReport problems));
        Assert.Equal("the document is UTF-16 text", Assert.Single(problems.Told).What);
    }

    [Fact]
    public void TryRead_BadByte_SaysWhere()
    {
        byte[] bytes = [.. "[1,\n \""u8, 0xC3, (byte)'"', (byte)']'];
        Assert.False(SourceDocument.TryRead(bytes, ReadLimits.Record, out _, out ProblemReport problems));
        Problem problem = Assert.Single(problems.Told);
        Assert.Equal(
            (ProblemCode.Encoding, 2, 3, "byte 0xC3"),
            (problem.Code, problem.Line, problem.Column, problem.Found)
        );
    }

    [Theory]
    [InlineData(ReadLimits.Depth, true)]
    [InlineData(ReadLimits.Depth + 1, false)]
    [InlineData(100_000, false)]
    public void TryRead_Nesting_IsBounded(int depth, bool accepted)
    {
        string text = new string('[', depth) + new string(']', depth);
        bool read = SourceDocument.TryRead(
            Encoding.UTF8.GetBytes(text),
            ReadLimits.Record,
            out _,
            out var problems
        );
        Assert.Equal(accepted, read);
        Assert.Equal(accepted ? [] : [ProblemCode.Depth], problems.Told.Select(problem => problem.Code));
    }

    [Theory]
    [InlineData(9, true)]
    [InlineData(10, false)]
    public void TryRead_Values_AreBounded(int items, bool accepted)
    {
        string text = "[" + string.Join(",", Enumerable.Repeat("1", items)) + "]";
        bool read = SourceDocument.TryRead(
            Encoding.UTF8.GetBytes(text),
            new ReadLimits(1_000, 10),
            out _,
            out _
        );
        Assert.Equal(accepted, read);
    }

    [Theory]
    [InlineData(1_000, true)]
    [InlineData(1_001, false)]
    public void TryRead_Bytes_AreBounded(int size, bool accepted)
    {
        byte[] text = Encoding.UTF8.GetBytes("{}".PadRight(size));
        Assert.Equal(accepted, SourceDocument.TryRead(text, new ReadLimits(1_000, 10), out _, out _));
    }

    [Fact]
    public void PositionOf_EscapedNamesAndCharactersBeyondTheBasicPlane_CountsAsAnEditorDoes()
    {
        byte[] text = "{\r\n \"a/b\": {\"😀\": [0, \"~\"], \"m~n\": 2}}"u8.ToArray();
        Assert.True(SourceDocument.TryRead(text, ReadLimits.Record, out SourceDocument? document, out _));
        JsonPointer holder = JsonPointer.Root.Member("a/b");
        Assert.Equal("/a~1b/m~0n", holder.Member("m~n").ToString());
        Assert.Equal(new SourcePosition(2, 25), document.PositionOf(holder.Member("m~n")));
        Assert.Equal(new SourcePosition(2, 19), document.PositionOf(holder.Member("😀").Item(1)));
        Assert.Equal(new SourcePosition(2, 2), document.PositionOf(holder.Member("nothing")));
    }

    [Fact]
    public void TryRead_ManyProblems_TellsAHundredAndCountsTheRest()
    {
        string text = "{" + string.Join(",", Enumerable.Repeat("\"a\":1", 151)) + "}";
        SourceDocument.TryRead(
            Encoding.UTF8.GetBytes(text),
            ReadLimits.Record,
            out _,
            out ProblemReport problems
        );
        Assert.Equal((100, 50), (problems.Told.Length, problems.Untold));
        Assert.Equal("and 50 more", problems.Lines().Last());
    }

    private static byte[] Bytes(string file) =>
        File.ReadAllBytes(ReferenceFiles.At("evidence", "json-parsing", "test_parsing", file));
}
