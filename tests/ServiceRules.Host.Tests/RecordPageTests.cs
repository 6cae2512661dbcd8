using System.Net;
using System.Text;
using System.Text.RegularExpressions;

namespace ServiceRules.Host.Tests;

/// <summary>The page of one record: what it says, as found and as left, its timeline as lanes, its versions.</summary>
public sealed partial class RecordPageTests(FiledShop shop) : IClassFixture<FiledShop>
{
    private readonly ServiceRun _run = shop.Run;

    private async Task<string> PageAsync(string id) =>
        WebUtility.HtmlDecode(await _run.TextAsync($"records/{id}"));

    private async Task FileAsync(string fixture, string id, string day)
    {
        using var filed = await _run.PostAsync(
            "api/records",
            ServiceRun.Record(fixture, ("F-" + fixture, id), ("2026-04-13", day))
        );
        Assert.True(filed.StatusCode == HttpStatusCode.Created, await filed.Content.ReadAsStringAsync());
    }

    // Tags gone, and what stands between them on one line.
    private static string Text(string html) => Spaces().Replace(Tags().Replace(html, " "), " ");

    [Fact]
    public async Task Record_Filed_TellsMachineDayTasksPeopleAndUnits()
    {
        var text = Text(await PageAsync("J-1"));

        Assert.Contains("Machine M-02, area golf-greens, hour meter 412.5 h", text, StringComparison.Ordinal);
        Assert.Contains("Day 2026-04-13", text, StringComparison.Ordinal);
        Assert.Contains("Tasks height check", text, StringComparison.Ordinal);
        Assert.Contains("tech-02, did the work; tech-04, affected", text, StringComparison.Ordinal);
        Assert.Contains("signed off by tech-02, 2026-04-13 08:40", text, StringComparison.Ordinal);
        Assert.Contains("U-02-1: may go out", text, StringComparison.Ordinal);
        Assert.Contains(
            "height of cut, right 3.82 mm (HG-01) nothing as found",
            text,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task Record_OfWhatWasTurned_TellsAsFoundTurnedAndAsLeft()
    {
        await FileAsync("full-service-125", "J-full", "2026-06-10");

        var text = Text(await PageAsync("J-full"));

        Assert.Contains(
            "height of cut, left 0.1580 in (HG-02) turned height of cut, left down 0.008 in 0.1500 in (HG-02)",
            text,
            StringComparison.Ordinal
        );
        Assert.Contains("reel diameter, middle 124.2 mm (DT-01)", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Record_Timeline_HasALaneForEachPersonSourceAndLock()
    {
        var page = await PageAsync("J-1");
        var lanes = page[page.IndexOf("class=\"lanes\"", StringComparison.Ordinal)..];
        var heads = Heads().Matches(lanes).Select(head => head.Groups[1].Value).ToList();

        Assert.Equal(["tech-02", "tech-04"], heads[..2]);
        Assert.Equal("L-21", heads[^1]);
        Assert.Equal(6, heads.Count);
        var verified = Row(lanes, "proven that nothing moves");
        Assert.Equal(
            ["does it", "proven", "proven", "proven", "held"],
            Cells().Matches(verified).Select(cell => cell.Groups[1].Value)
        );
        Assert.Contains("hands in", Row(lanes, "hands-on work begins"), StringComparison.Ordinal);
        Assert.DoesNotContain("hands in", Row(lanes, "handed back"), StringComparison.Ordinal);
        // Entered last, done third.
        Assert.True(
            lanes.IndexOf("08:02:20", StringComparison.Ordinal)
                < lanes.IndexOf("08:02:50", StringComparison.Ordinal)
        );
    }

    [Fact]
    public async Task Record_Amended_TellsItsVersionsWithWhenWhoWhyAndWhatChanged()
    {
        var page = await PageAsync("J-3");
        // Behind it stands a form, which offers whoever may answer for a comment.
        var text = Text(page[..page.IndexOf("id=\"comments\"", StringComparison.Ordinal)]);
        var answer = await _run.GetJsonAsync("api/records/J-3");
        var by = answer.GetProperty("versions")[1].GetProperty("entry").GetProperty("by").GetString()!;

        Assert.Contains("There are 2 versions", text, StringComparison.Ordinal);
        Assert.Contains($"by {by}: may go out Why: x", text, StringComparison.Ordinal);
        Assert.Contains(
            "U-02-1, height of cut right, value: 3.81 mm, now 3.82 mm",
            text,
            StringComparison.Ordinal
        );
        Assert.DoesNotContain("lead-01", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Record_WithFindings_TellsThemBeforeTheJob()
    {
        var page = await PageAsync("J-2");

        var finding = page.IndexOf(">not met<", StringComparison.Ordinal);
        Assert.InRange(finding, 0, page.IndexOf("The job</h2>", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Record_OpenJob_LeadsBackToTheBench()
    {
        var open = Encoding.UTF8.GetString(
            ServiceRun.Record("height-check", ("F-height-check", "J-open"), ("2026-04-13", "2026-06-20"))
        );
        open = SignOff().Replace(open, "");
        using var filed = await _run.PostAsync("api/records", Encoding.UTF8.GetBytes(open));
        Assert.True(filed.StatusCode == HttpStatusCode.Created, await filed.Content.ReadAsStringAsync());

        Assert.Contains("href=\"/bench?record=J-open\"", await PageAsync("J-open"), StringComparison.Ordinal);
        Assert.DoesNotContain("/bench?record=", await PageAsync("J-1"), StringComparison.Ordinal);
    }

    private static string Row(string lanes, string what)
    {
        var at = lanes.IndexOf(what, StringComparison.Ordinal);
        return lanes[lanes.LastIndexOf("<tr>", at, StringComparison.Ordinal)..at];
    }

    [GeneratedRegex("<[^>]*>")]
    private static partial Regex Tags();

    [GeneratedRegex(@"\s+")]
    private static partial Regex Spaces();

    [GeneratedRegex("<th scope=\"col\" class=\"lane[^\"]*\"><span[^>]*>([^<]*)</span>")]
    private static partial Regex Heads();

    [GeneratedRegex("class=\"unseen\">([^<]*)<")]
    private static partial Regex Cells();

    [GeneratedRegex(",\\s*\"signOff\": \\{[^}]*\\}")]
    private static partial Regex SignOff();
}
