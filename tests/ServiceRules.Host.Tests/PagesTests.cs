using System.Net;
using System.Text;

namespace ServiceRules.Host.Tests;

public sealed class PagesTests(FiledShop shop) : IClassFixture<FiledShop>
{
    private readonly ServiceRun _run = shop.Run;

    private async Task<string> SendAsync(string text, string what)
    {
        using var form = new FormUrlEncodedContent([new("record", text), new("do", what)]);
        using var answer = await _run.Client.PostAsync(new Uri("bench", UriKind.Relative), form);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        return await answer.Content.ReadAsStringAsync();
    }

    private static string Record(string id) =>
        // On a day of its own: at one machine at the same time it would bear on another.
        Encoding.UTF8.GetString(
            ServiceRun.Record("height-check", ("F-height-check", id), ("2026-04-13", $"2026-05-0{id[^1]}"))
        );

    [Fact]
    public async Task Bench_Judge_ShowsTheOutcomeAndStoresNothing()
    {
        var page = await SendAsync(Record("J-bench-1"), "judge");

        Assert.Contains("may go out", page, StringComparison.Ordinal);
        using var absent = await _run.GetAsync("api/records/J-bench-1");
        Assert.Equal(HttpStatusCode.NotFound, absent.StatusCode);
    }

    [Fact]
    public async Task Bench_Submit_FilesAndLeadsToTheRecord()
    {
        var page = await SendAsync(Record("J-bench-2"), "submit");

        Assert.Contains("href=\"/records/J-bench-2\"", page, StringComparison.Ordinal);
        Assert.Contains(
            "lock on (engine start",
            await _run.TextAsync("records/J-bench-2"),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task Bench_WhatCannotBeRead_ComesBackWithItsProblemsAndAsTextOnly()
    {
        var page = await SendAsync("</textarea><script>alert(1)</script>", "submit");

        Assert.Contains("line 1, column 1", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<script", page, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("records", "J-1", "J-2")]
    [InlineData("records?disposition=hold&machine=", "J-2", "J-3")]
    public async Task Records_List_ShowsThoseAskedFor(string path, string shown, string other)
    {
        var page = await _run.TextAsync(path);

        Assert.Contains($"href=\"/records/{shown}\"", page, StringComparison.Ordinal);
        Assert.Equal(
            path == "records",
            page.Contains($"href=\"/records/{other}\"", StringComparison.Ordinal)
        );
        Assert.DoesNotContain("<script", page, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("machine=m-02%20", "J-1", "")]
    [InlineData("from=2026-04-14&until=2026-04-14", "J-2", "J-1")]
    [InlineData("until=2026-04-13", "J-1", "J-2")]
    [InlineData("unit=u-02-3", "J-1", "")]
    [InlineData("unit=U-99", "", "J-1")]
    [InlineData("record=j-2", "J-2", "J-1")]
    [InlineData("record=_", "", "J-1")]
    public async Task Records_Filtered_ShowThoseAskedForAlone(string query, string shown, string other)
    {
        var page = await _run.TextAsync("records?" + query);

        Assert.Equal(shown.Length > 0, page.Contains($"href=\"/records/{shown}\"", StringComparison.Ordinal));
        Assert.True(
            other.Length == 0 || !page.Contains($"href=\"/records/{other}\"", StringComparison.Ordinal)
        );
    }

    [Theory]
    [InlineData("colour=red", "There is no `colour` to ask for")]
    [InlineData("from=13.4.2026", "`13.4.2026` is no day")]
    [InlineData("from=2026-05-01&until=2026-04-01", "No day is from 2026-05-01 until 2026-04-01")]
    [InlineData("disposition=fine", "`fine` is no outcome")]
    [InlineData("machine=%00", "is part of no identity")]
    public async Task Records_AskedForWhatIsNot_TellItAndShowNone(string query, string told)
    {
        var page = WebUtility.HtmlDecode(await _run.TextAsync("records?" + query));

        Assert.Contains(told, page, StringComparison.Ordinal);
        Assert.DoesNotContain("href=\"/records/J-1\"", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Record_Held_TellsWhatIsNotMet()
    {
        var page = await _run.TextAsync("records/J-2");

        Assert.Contains("<strong>hold</strong>", page, StringComparison.Ordinal);
        Assert.Contains("not met", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Record_NotFiled_IsNotThere()
    {
        using var absent = await _run.GetAsync("records/J-none");

        Assert.Equal(HttpStatusCode.NotFound, absent.StatusCode);
    }
}
