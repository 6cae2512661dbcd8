using System.Globalization;
using System.Net;
using System.Text.Json.Nodes;
using ServiceRules.Application.Accounts;

namespace ServiceRules.Host.Tests.Bench;

/// <summary>A job that is begun, kept as far as it is filled in, and carried on with later; what is wrong at a field of the form.</summary>
public sealed class CarryOnTests(SpringShop shop) : IClassFixture<SpringShop>
{
    private const string HeightCheck = "bench?machine=M-02&task=height-check&procedure=&person=tech-02";
    private const string FirstHeight = "/units/0/entries/0/value";

    private readonly ServiceRun _run = shop.Run;

    private async Task<FilledPage> OpenAsync(string path) => FilledPage.Of(await _run.TextAsync(path));

    private async Task<FilledPage> SendAsync(FilledPage page, string what)
    {
        using var form = new FormUrlEncodedContent([
            .. page.Fields.Where(field => field.Key.Length > 0 && field.Key != "do"),
            new("do", what),
        ]);
        using var answer = await _run.Client.PostAsync(new Uri("bench", UriKind.Relative), form);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        return FilledPage.Of(await answer.Content.ReadAsStringAsync());
    }

    private static string IdOf(FilledPage page) => JsonNode.Parse(page.Record)!["id"]!.GetValue<string>();

    // A minute for each step from a time on.
    private static void Time(FilledPage page, TimeOnly from, int steps = int.MaxValue)
    {
        var empty = page
            .Fields.Where(field =>
                field.Key.StartsWith('/')
                && field.Key.EndsWith("/at", StringComparison.Ordinal)
                && field.Value.Length == 0
            )
            .Select(field => field.Key)
            .Take(steps);
        foreach (var name in empty.ToList())
        {
            page.Fields[name] = from.ToString("HH:mm", CultureInfo.InvariantCulture);
            from = from.AddMinutes(1);
        }
    }

    [Fact]
    public async Task Job_KeptHalfFilledIn_IsOpenAndFinishedLaterByForm()
    {
        var begun = await OpenAsync(HeightCheck);
        var id = IdOf(begun);
        Time(begun, new(8, 0), steps: 14);
        begun.Fields[FirstHeight] = "3.81";

        var kept = await SendAsync(begun, "keep");

        Assert.Contains("the job is open", kept.Html, StringComparison.Ordinal);
        Assert.Equal(14, (await _run.Typed.ReadRecordAsync(id)).Record!.Timeline!.Count);

        var page = await OpenAsync($"bench?record={id}");
        Assert.Equal("3.81", page.Fields[FirstHeight]);
        Assert.Equal("08:00:00", page.Fields["/timeline/0/at"]);
        Time(page, new(8, 20));
        foreach (
            var name in page
                .Fields.Where(field =>
                    field.Key.StartsWith("/units/", StringComparison.Ordinal)
                    && field.Key.EndsWith("/value", StringComparison.Ordinal)
                    && field.Value.Length == 0
                )
                .Select(field => field.Key)
                .ToList()
        )
        {
            page.Fields[name] = "3.81";
        }

        page.Fields["/machine/hours"] = "420.0";
        page.Fields["/instruments/0/zeroCheck/error"] = "0.00";
        var filed = await SendAsync(page, "submit");

        Assert.Contains("may go out", filed.Html, StringComparison.Ordinal);
        var whole = await _run.Typed.ReadRecordAsync(id);
        Assert.Equal(2, whole.Versions.Count);
        Assert.NotNull(whole.Record!.SignOff);
        Assert.All(
            whole.Record.Units.SelectMany(unit => unit.Entries!),
            entry => Assert.Equal("3.81 mm", entry.Value)
        );
        Assert.Contains(
            "is signed off",
            (await _run.TextAsync($"bench?record={id}")),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task Job_KeptTwiceFromOnePage_GoesOnWithWhatWasFilledInBetween()
    {
        var begun = await OpenAsync(HeightCheck);
        // The second reading first: what is filed goes first from then on.
        begun.Fields["/units/0/entries/1/value"] = "3.82";
        var kept = await SendAsync(begun, "keep");
        Assert.Equal("3.82", kept.Fields[FirstHeight]);
        kept.Fields["/units/0/entries/1/value"] = "3.80";

        var again = await SendAsync(kept, "keep");

        Assert.Contains("the job is open", again.Html, StringComparison.Ordinal);
        Assert.Equal(
            ["3.82 mm", "3.80 mm"],
            (await _run.Typed.ReadRecordAsync(IdOf(begun)))
                .Record!.Units.First()
                .Entries!.Select(entry => entry.Value)
        );
    }

    /// <summary>What is kept is open whatever is filled in, and of a job that is closed nothing else is said.</summary>
    [Fact]
    public async Task Job_KeptWithItsSignOffFilledIn_IsOpenUntilItIsSubmitted()
    {
        var begun = await OpenAsync(HeightCheck);
        var id = IdOf(begun);
        Time(begun, new(5, 0));
        foreach (
            var name in begun
                .Fields.Keys.Where(name =>
                    name.StartsWith("/units/", StringComparison.Ordinal)
                    && name.EndsWith("/value", StringComparison.Ordinal)
                )
                .ToList()
        )
        {
            begun.Fields[name] = "3.81";
        }

        begun.Fields["/machine/hours"] = "420.0";
        begun.Fields["/instruments/0/zeroCheck/error"] = "0.00";

        var kept = await SendAsync(begun, "keep");

        Assert.Contains("the job is open", kept.Html, StringComparison.Ordinal);
        Assert.Contains("Its sign-off is not filed", kept.Html, StringComparison.Ordinal);
        Assert.Null((await _run.Typed.ReadRecordAsync(id)).Record!.SignOff);
        Assert.StartsWith(begun.Fields["/signOff/at"], kept.Fields["/signOff/at"], StringComparison.Ordinal);

        var filed = await SendAsync(kept, "submit");

        Assert.NotNull((await _run.Typed.ReadRecordAsync(id)).Record!.SignOff);
        foreach (var page in new[] { filed, kept })
        {
            var late = await SendAsync(page, "keep");
            Assert.Contains($"{id} is signed off;", late.Html, StringComparison.Ordinal);
            Assert.DoesNotContain("the job is open", late.Html, StringComparison.Ordinal);
        }

        Assert.Equal(2, (await _run.Typed.ReadRecordAsync(id)).Versions.Count);
    }

    [Fact]
    public async Task Value_WithADecimalComma_IsToldAtItsField()
    {
        var page = await OpenAsync(HeightCheck);
        page.Fields[FirstHeight] = "4,80";
        page.Fields["/instruments/0/zeroCheck/error"] = "0,00";

        var answer = await SendAsync(page, "judge");

        Assert.Equal("4,80 is not read; accepted: 4.80", answer.WrongAt(FirstHeight));
        Assert.Equal("0,00 is not read; accepted: 0.00", answer.WrongAt("/instruments/0/zeroCheck/error"));
        Assert.Equal("4,80", answer.Fields[FirstHeight]);
        answer.Fields[FirstHeight] = "4.80";
        answer.Fields["/instruments/0/zeroCheck/error"] = "0.00";
        var mended = await SendAsync(answer, "judge");
        Assert.Null(mended.WrongAt(FirstHeight));
        Assert.Null(mended.WrongAt("/instruments/0/zeroCheck/error"));
        Assert.Contains("\"0.00 mm\"", mended.Record, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Job_OfOthersOrOfNobody_IsNotThere()
    {
        var begun = await OpenAsync(HeightCheck);
        begun.Fields[FirstHeight] = "3.81";
        _ = await SendAsync(begun, "keep");
        using var other = _run.ClientWith(_run.NewKey(Roles.Technician, "tech-01"));

        using var unseen = await other.GetAsync(new Uri($"bench?record={IdOf(begun)}", UriKind.Relative));
        using var absent = await _run.GetAsync("bench?record=J-none");

        Assert.Equal(HttpStatusCode.NotFound, unseen.StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, absent.StatusCode);
    }
}
