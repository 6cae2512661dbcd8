using System.Text;
using ServiceRules.Formats.Json;
using ServiceRules.Formats.Json.Source;

namespace ServiceRules.Formats.Tests.Json;

/// <summary>What the reader says of each thing that can be wrong, on a document that uses every kind of shape.</summary>
public sealed class ReadingTests
{
    [Theory]
    [InlineData("\"id\": \"north-shed\",", "", "name.missing", "", 1, 1, "", "the shed's name")]
    [InlineData(
        "\"busy\"",
        "\"bussy\"",
        "value.choice",
        "/mood",
        4,
        11,
        "bussy",
        "did you mean `busy`? one of calm-and-dry, busy, closed"
    )]
    [InlineData("\"busy\"", "3", "value.type", "/mood", 4, 11, "3", "one of calm-and-dry, busy, closed")]
    [InlineData("\"busy\"", "null", "value.type", "/mood", 4, 11, "null", "one of calm-and-dry")]
    [InlineData("0.25", "1.25", "value.range", "/share", 5, 12, "1.25", "a number from 0 to 1")]
    [InlineData("0.25", "1e400", "value.range", "/share", 5, 12, "1e400", "a number from 0 to 1")]
    [InlineData(
        "\"first\": 2",
        "\"first\": 2.5",
        "value.type",
        "/first",
        6,
        12,
        "2.5",
        "a whole number from 0 to 99"
    )]
    [InlineData("\"last\": 9", "\"last\": 1", "value.contradiction", "/last", 7, 11, "1", "`first` or more")]
    [InlineData(
        "0.025 mm",
        "0.025",
        "text.pattern",
        "/gauges/0/thickness",
        9,
        32,
        "0.025",
        "a length with its unit"
    )]
    [InlineData("0.025 mm", "0.025 kg", "value.unreadable", "/gauges/0/thickness", 9, 32, "0.025 kg", "")]
    [InlineData(
        "{ \"id\": \"g2\"",
        "{ \"id\": \"g1\", \"thickness\": \"1 mm\" }, { \"id\": \"g2\"",
        "reference.duplicate",
        "/gauges/1/id",
        10,
        13,
        "g1",
        "each name once"
    )]
    [InlineData(
        "\"gauge\": \"g2\"",
        "\"gauge\": \"g3\"",
        "reference.dangling",
        "/notes/0/gauge",
        13,
        32,
        "g3",
        "did you mean `g1`? one of g1, g2"
    )]
    [InlineData(
        "\"kind\": \"said\"",
        "\"kind\": \"sad\"",
        "value.choice",
        "/notes/1/kind",
        14,
        43,
        "sad",
        "did you mean `said`? one of seen, said"
    )]
    [InlineData(", \"kind\": \"said\"", "", "name.missing", "/notes/1", 14, 5, "", "one of seen, said")]
    [InlineData(
        "kept dry, 20 °C",
        " ",
        "text.pattern",
        "/notes/1/words",
        14,
        16,
        " ",
        "text on one line, not blank"
    )]
    [InlineData("kept dry, 20 °C", "", "text.length", "/notes/1/words", 14, 16, "", "1 to 40 characters")]
    [InlineData(
        "kept dry, 20 °C",
        "a\\u0007b",
        "text.pattern",
        "/notes/1/words",
        14,
        16,
        "a\\u0007b",
        "text on one line"
    )]
    [InlineData(
        "kept dry, 20 °C",
        "\\ud800",
        "text.surrogate",
        "/notes/1/words",
        14,
        16,
        "\\ud800",
        "escapes that come in whole pairs"
    )]
    [InlineData(
        "\"left\"",
        "\"Left\"",
        "name.pattern",
        "/hooks/Left",
        16,
        14,
        "Left",
        "1 to 9 small letters"
    )]
    [InlineData(
        "\"right\": 2",
        "\"right\": 2, \"top\": 3, \"low\": 4",
        "list.length",
        "/hooks",
        16,
        12,
        "an object with 4 members",
        "an object of at most 3 members"
    )]
    [InlineData(
        "\"right\": 2",
        "\"left\": 2",
        "name.duplicate",
        "/hooks/left",
        16,
        25,
        "left",
        "each name once"
    )]
    [InlineData("shed/1", "shed/2", "document.format", "/format", 2, 13, "shed/2", "shed/1")]
    public void Read_OneThingWrong_IsToldOnceWithPlaceValueAndWhatIsAccepted(
        string right,
        string wrong,
        string code,
        string pointer,
        int line,
        int column,
        string found,
        string accepted
    )
    {
        Assert.Contains(right, ShedFormat.Valid, StringComparison.Ordinal);
        ProblemReport problems = Problems(ShedFormat.Valid.Replace(right, wrong, StringComparison.Ordinal));
        Problem problem = Assert.Single(problems.Told);
        Assert.Equal(
            (code, pointer, line, column),
            (problem.Code, problem.Pointer, problem.Line, problem.Column)
        );
        Assert.StartsWith(found, problem.Found, StringComparison.Ordinal);
        Assert.StartsWith(accepted, problem.Accepted, StringComparison.Ordinal);
        Assert.NotEmpty(problem.What);
    }

    [Fact]
    public void Read_MisspeltName_IsUnknownAndTheRightOneMissing()
    {
        ProblemReport problems = Problems(
            ShedFormat.Valid.Replace("\"id\": \"n", "\"idd\": \"n", StringComparison.Ordinal)
        );
        Assert.Equal(
            [ProblemCode.MissingName, ProblemCode.UnknownName],
            problems.Told.Select(problem => problem.Code)
        );
        Assert.Equal(
            "line 1, column 1: `id` is missing; accepted: the shed's name",
            problems.Told[0].ToString()
        );
        Assert.Equal(
            ("/idd", 3, 3, "idd"),
            (problems.Told[1].Pointer, problems.Told[1].Line, problems.Told[1].Column, problems.Told[1].Found)
        );
        Assert.StartsWith(
            "did you mean `id`? one of id, mood",
            problems.Told[1].Accepted,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Read_ManyThingsWrong_TellsAllInTheOrderOfTheDocument()
    {
        string text = ShedFormat
            .Valid.Replace("north-shed", "North Shed", StringComparison.Ordinal)
            .Replace("\"busy\"", "true", StringComparison.Ordinal)
            .Replace("1/16 in", "1/15 in", StringComparison.Ordinal)
            .Replace("\"count\": 3", "\"count\": 300, \"more\": {}", StringComparison.Ordinal)
            .Replace("\"hooks\": { \"left\": 1, \"right\": 2 }", "\"hooks\": []", StringComparison.Ordinal);
        Assert.Equal(
            ["/id", "/mood", "/gauges/1/thickness", "/notes/0/count", "/notes/0/more", "/hooks"],
            Problems(text).Told.Select(problem => problem.Pointer)
        );
    }

    [Fact]
    public void Read_ListTooLong_IsRefusedWithoutReadingItsItems()
    {
        string items = string.Join(",", Enumerable.Repeat("7", 6));
        string text = ShedFormat.Valid.Replace(
            "\"notes\": [",
            $"\"notes\": [{items},",
            StringComparison.Ordinal
        );
        Problem problem = Assert.Single(Problems(text).Told);
        Assert.Equal(
            (ProblemCode.ListLength, "a list of 8", "a list of 1 to 4"),
            (problem.Code, problem.Found, problem.Accepted)
        );
    }

    [Fact]
    public void Read_LongText_ShowsOnlyItsBeginning()
    {
        string text = ShedFormat.Valid.Replace("kept dry", new string('x', 5_000), StringComparison.Ordinal);
        Problem problem = Assert.Single(Problems(text).Told);
        Assert.Equal(ProblemCode.TextLength, problem.Code);
        Assert.Equal(new string('x', ReadLimits.FoundLength) + "…", problem.Found);
        Assert.Equal("the text has 5007 characters", problem.What);
    }

    [Fact]
    public void ToString_OfAProblem_IsOneSentenceForACommandLine()
    {
        string text = ShedFormat.Valid.Replace("\"busy\"", "\"bussy\"", StringComparison.Ordinal);
        Assert.Equal(
            "line 4, column 11 at /mood: this word is not known here; found `bussy`; accepted: "
                + "did you mean `busy`? one of calm-and-dry, busy, closed",
            Problems(text).ToString()
        );
    }

    [Fact]
    public void Read_Valid_GivesTheValueAndThePlaceOfEachPart()
    {
        bool read = ShedFormat
            .Format.Read(Bytes(ShedFormat.Valid))
            .TryGet(out Shed? shed, out var document, out _);
        Assert.True(read);
        Assert.Equal("1/16 in", shed!.Gauges[1].Thickness.ToString());
        Assert.Equal(new Note.Seen("g2", 3), shed.Notes[0]);
        Assert.False(shed.Locked);
        JsonPointer count = JsonPointer.Root.Member("notes").Item(0).Member("count");
        Assert.Equal(new SourcePosition(13, 38), document!.PositionOf(count));
        Problem problem = document.ProblemAt(count, "shed.count", "too many", "fewer");
        Assert.Equal((13, 47, "3"), (problem.Line, problem.Column, problem.Found));
    }

    [Fact]
    public void Write_ThenRead_GivesTheSameValueAndTheSameBytes()
    {
        ShedFormat.Format.Read(Bytes(ShedFormat.Valid)).TryGet(out Shed? shed, out _);
        byte[] written = ShedFormat.Format.Write(shed!);
        Assert.True(
            ShedFormat.Format.Read(written).TryGet(out Shed? again, out ProblemReport problems),
            problems.ToString()
        );
        Assert.True(shed!.SameAs(again));
        Assert.Equal(written, ShedFormat.Format.Write(again));
        Assert.DoesNotContain("locked", Encoding.UTF8.GetString(written), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("[]")]
    [InlineData("null")]
    [InlineData("{}")]
    [InlineData("{\"format\": 1}")]
    public void Read_NotThisKindOfDocument_SaysThatAlone(string text) => Assert.Single(Problems(text).Told);

    private static ProblemReport Problems(string text)
    {
        Assert.False(ShedFormat.Format.Read(Bytes(text)).TryGet(out _, out ProblemReport problems));
        return problems;
    }

    private static byte[] Bytes(string text) => Encoding.UTF8.GetBytes(text);
}
