using System.Text;
using System.Text.Json.Nodes;
using ServiceRules.Domain.Records;
using ServiceRules.Formats.Json;
using ServiceRules.Formats.Sheets;
using ServiceRules.TestKit;

namespace ServiceRules.Formats.Tests.Documents;

/// <summary>What a limit sheet may say of a screw.</summary>
public sealed class LimitSheetReadingTests
{
    [Fact]
    public void Read_AThread_KeepsItsDigits()
    {
        Assert.True(
            LimitSheetFormat
                .Current.Read(With("""{ "pitch": "1.50 mm", "ratio": 0.5, "parts": 8 }"""))
                .TryGet(out var sheet, out var problems),
            problems?.ToString()
        );
        var height = sheet!.Of(AdjusterKind.Height)!;

        Assert.Equal("1.50 mm", height.Thread!.Pitch.ToString());
        Assert.Equal((0.5m, 8), (height.Thread.Ratio, height.Thread.Parts));
        // 1.5 mm · 0.5 / 8.
        Assert.Equal(0.09375m, height.OneStep!.Value.Millimetres);
    }

    [Fact]
    public void Read_AThreadOfUnknownRatio_StatesNoStep()
    {
        Assert.True(
            LimitSheetFormat
                .Current.Read(With("""{ "pitch": "1.50 mm", "parts": 8 }"""))
                .TryGet(out var sheet, out _)
        );

        Assert.Null(sheet!.Of(AdjusterKind.Height)!.OneStep);
    }

    [Theory]
    [InlineData("""{ "pitch": "0 mm", "ratio": 0.5, "parts": 8 }""", "/thread/pitch")]
    [InlineData("""{ "pitch": "1.5 mm", "ratio": 0, "parts": 8 }""", "/thread/ratio")]
    [InlineData("""{ "pitch": "1.5 mm", "ratio": 0.5, "parts": 361 }""", "/thread/parts")]
    [InlineData("""{ "pitch": "1.5 mm", "ratio": 0.5 }""", "/thread")]
    public void Read_AThreadThatIsNone_IsRefusedWhereItStands(string thread, string pointer) =>
        AssertRefused(With(thread), pointer);

    [Fact]
    public void Read_AThreadBesideAStep_IsRefused() =>
        AssertRefused(With("""{ "pitch": "1.5 mm", "ratio": 0.5, "parts": 8 }""", "0.05 mm"), "/thread");

    private static void AssertRefused(byte[] sheet, string pointer)
    {
        Assert.False(LimitSheetFormat.Current.Read(sheet).TryGet(out _, out ProblemReport problems));
        Assert.EndsWith(pointer, Assert.Single(problems.Told).Pointer, StringComparison.Ordinal);
    }

    private static byte[] With(string thread, string? step = null)
    {
        var sheet = JsonNode.Parse(
            File.ReadAllText(ReferenceFiles.InRepository("rules", "sheets", "reel-125-9-510.sheet.json"))
        )!;
        var height = sheet["adjusters"]!
            .AsArray()
            .Single(adjuster => adjuster!["adjuster"]!.GetValue<string>() == "height")!;
        height["thread"] = JsonNode.Parse(thread);
        if (step is not null)
        {
            height["step"] = step;
        }

        return Encoding.UTF8.GetBytes(sheet.ToJsonString());
    }

    [Theory]
    [InlineData("clearance", "taper")]
    [InlineData("clearance", "barrel")]
    [InlineData("rear-roller-on-plate", "twist")]
    public void Read_AFormOfSomethingElse_IsRefusedWhereItStands(string quantity, string member)
    {
        var sheet = Shipped();
        var quantities = sheet["quantities"]!.AsArray();
        var limit = quantities.Single(one => one!["quantity"]!.GetValue<string>() == quantity)!;
        limit[member] = "0.1 mm";

        AssertRefused(
            Encoding.UTF8.GetBytes(sheet.ToJsonString()),
            $"/quantities/{quantities.IndexOf(limit)}/{member}"
        );
    }

    private static JsonNode Shipped() =>
        JsonNode.Parse(
            File.ReadAllText(ReferenceFiles.InRepository("rules", "sheets", "reel-125-9-510.sheet.json"))
        )!;
}
