using System.Globalization;
using System.Net;
using System.Text.Json.Nodes;
using ServiceRules.Application.Accounts;

namespace ServiceRules.Host.Tests.Bench;

/// <summary>A job that is begun with a machine, filled in by forms, judged, submitted and reported.</summary>
public sealed class BeginTests(SpringShop shop) : IClassFixture<SpringShop>
{
    private const string HeightCheck = "bench?machine=M-02&task=height-check&procedure=&person=tech-02";

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

    // As a technician would: a minute for each step, the readings, and what is left.
    private static void Fill(FilledPage page, string height)
    {
        var at = new TimeOnly(8, 0);
        foreach (var name in page.Fields.Keys.Where(name => name.StartsWith('/')).ToList())
        {
            if (name.EndsWith("/at", StringComparison.Ordinal))
            {
                page.Fields[name] = at.ToString("HH:mm", CultureInfo.InvariantCulture);
                at = at.AddMinutes(1);
            }
            else if (name.EndsWith("/value", StringComparison.Ordinal))
            {
                page.Fields[name] = height;
            }
        }

        page.Fields["/machine/hours"] = "420.0";
        page.Fields["/instruments/0/zeroCheck/error"] = "0.00";
    }

    [Fact]
    public async Task Page_BeforeAnythingIsChosen_NamesMachinesTasksAndProcedures()
    {
        var page = WebUtility.HtmlDecode(await _run.TextAsync("bench"));

        Assert.Contains("M-02: Ride-on, three units, M-02 (golf-greens)", page, StringComparison.Ordinal);
        Assert.Contains("height check", page, StringComparison.Ordinal);
        Assert.Contains("P-bench-", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<script", page, StringComparison.Ordinal);
    }

    /// <summary>The sheet says which feeler should pass: that it did is for somebody to say.</summary>
    [Fact]
    public async Task Record_BegunForATouchUp_SaysOfNoReadingWhatWasRead()
    {
        var page = await OpenAsync("bench?machine=M-02&task=touch-up&procedure=&person=tech-02");

        var entries = JsonNode.Parse(page.Record)!["units"]!
            .AsArray()
            .SelectMany(unit => unit!["entries"]!.AsArray())
            .ToList();

        Assert.Contains(entries, entry => entry!["feeler"] is not null);
        Assert.All(
            entries,
            entry =>
                Assert.StartsWith(
                    "?",
                    (
                        entry!["feeler"] ?? entry["value"] ?? entry["paper"] ?? entry["condition"]
                    )!.GetValue<string>(),
                    StringComparison.Ordinal
                )
        );
    }

    [Fact]
    public async Task Record_Begun_HasUnitsReadingsGaugesAndStepsToFillIn()
    {
        var page = await OpenAsync(HeightCheck);
        var record = JsonNode.Parse(page.Record)!;

        Assert.Equal("2026-04-20", record["date"]!.GetValue<string>());
        Assert.Equal(
            ["U-02-1", "U-02-2", "U-02-3"],
            record["units"]!.AsArray().Select(unit => unit!["id"]!.GetValue<string>())
        );
        Assert.Equal(
            ["height-of-cut left ? mm HG-01", "height-of-cut right ? mm HG-01"],
            record["units"]![0]!["entries"]!
                .AsArray()
                .Select(entry => $"{entry!["read"]} {entry["station"]} {entry["value"]} {entry["with"]}")
        );
        Assert.Equal("? mm", record["instruments"]![0]!["zeroCheck"]!["error"]!.GetValue<string>());
        Assert.Equal("2027-01-10", record["instruments"]![0]!["calibration"]!["due"]!.GetValue<string>());
        Assert.All(
            record["timeline"]!.AsArray(),
            // Summer time at the site.
            step => Assert.Equal("2026-04-20T??:??:00+01:00", step!["at"]!.GetValue<string>())
        );
        Assert.Contains(
            "L-21",
            record["timeline"]!.AsArray().Select(step => step!["lock"]?.GetValue<string>())
        );
    }

    [Fact]
    public async Task Machine_WithoutAJob_AsksForReadingsOnceItsUnitsAreNamed()
    {
        var page = await OpenAsync("bench?machine=M-05&task=height-check&person=tech-01");
        Assert.Matches(
            "<select id=\"/units/0/sheet\"[^>]*>\\s*<option value[^>]*>-</option>\\s*<option>reel-125-9-510</option>",
            page.Html
        );
        Assert.DoesNotContain("\"read\"", page.Record, StringComparison.Ordinal);
        // What cannot be an identity is told at its field, and asked for again.
        page.Fields["/units/0/id"] = "U 05";
        page.Fields["/units/0/sheet"] = "reel-125-9-510";
        var wrong = await SendAsync(page, "judge");
        Assert.NotNull(wrong.WrongAt("/units/0/id"));
        wrong.Fields["/units/0/id"] = "U-05-1";

        var named = await SendAsync(wrong, "judge");

        var record = JsonNode.Parse(named.Record)!;
        var unit = record["units"]![0]!;
        Assert.Equal("reel-125-9-510", unit["sheet"]!.GetValue<string>());
        var gauges = unit["entries"]!
            .AsArray()
            .Select(entry => entry!["with"]?.GetValue<string>())
            .OfType<string>();
        Assert.NotEmpty(gauges);
        Assert.Equal(
            gauges.Distinct().Order(StringComparer.Ordinal),
            record["instruments"]!
                .AsArray()
                .Select(gauge => gauge!["id"]!.GetValue<string>())
                .Order(StringComparer.Ordinal)
        );
        Assert.Contains("Readings of unit U-05-1", named.Html, StringComparison.Ordinal);
        Assert.Equal("reel-125-9-510", named.Fields["/units/0/sheet"]);
        // What is taken out stays out.
        var entries = record["units"]![0]!["entries"]!.AsArray();
        entries.Clear();
        named.Fields["record"] = record.ToJsonString();
        Assert.DoesNotContain("\"read\"", (await SendAsync(named, "judge")).Record, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("{\"machine\":\"M-05\",\"units\":[{\"id\":\"?\",\"sheet\":\"?\"}]}")]
    [InlineData("{\"machine\":{\"id\":\"M-05\"},\"tasks\":[],\"units\":[{\"id\":\"?\",\"sheet\":\"?\"}]}")]
    [InlineData(
        "{\"machine\":{\"id\":\"M-05\"},\"tasks\":[\"touch-up\"],\"timeline\":[1],\"units\":[{\"id\":\"?\",\"sheet\":\"?\"}]}"
    )]
    [InlineData(
        "{\"machine\":{\"id\":\"M-05\"},\"tasks\":[\"touch-up\"],\"units\":[{\"id\":\"?\",\"sheet\":\"?\",\"position\":\"x\"}]}"
    )]
    public async Task Units_NamedInWhatIsNoRecord_AreToldAndNothingIsAsked(string record)
    {
        var page = await OpenAsync("bench?machine=M-05&task=touch-up&person=tech-01");
        page.Fields["record"] = record;
        page.Fields["/units/0/id"] = "U-05-1";
        page.Fields["/units/0/sheet"] = "reel-125-9-510";

        var answer = await SendAsync(page, "judge");

        Assert.Contains("Refused", answer.Html, StringComparison.Ordinal);
        Assert.DoesNotContain("\"read\"", answer.Record, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Record_BegunAndJudgedAsItIs_IsToldWhatIsMissingByItsPlace()
    {
        var answer = await SendAsync(await OpenAsync(HeightCheck), "judge");

        Assert.Contains(
            "<a href=\"#/units/0/entries/0/value\">Readings of unit U-02-1: height of cut, left</a>",
            answer.Html,
            StringComparison.Ordinal
        );
        Assert.Equal("To be filled in.", answer.WrongAt("/units/0/entries/0/value"));
        Assert.Equal("To be filled in.", answer.WrongAt("/signOff/at"));
        Assert.DoesNotContain("line ", answer.Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Record_BegunTwiceInOneSecond_HasAnIdentityOfItsOwn()
    {
        var ids = (await Task.WhenAll(Enumerable.Range(0, 3).Select(_ => OpenAsync(HeightCheck)))).Select(
            page => JsonNode.Parse(page.Record)!["id"]!.GetValue<string>()
        );

        Assert.Equal(3, ids.Distinct(StringComparer.Ordinal).Count());
    }

    [Fact]
    public async Task Job_FilledInByFormsAlone_MayGoOutAndHasASignedReport()
    {
        var page = await OpenAsync(HeightCheck);
        Fill(page, "3.81");

        var judged = await SendAsync(page, "judge");
        Assert.Contains("may go out", judged.Html, StringComparison.Ordinal);
        var filed = await SendAsync(judged, "submit");

        var id = JsonNode.Parse(page.Record)!["id"]!.GetValue<string>();
        Assert.Contains($"href=\"/api/records/{id}/report\"", filed.Html, StringComparison.Ordinal);
        var read = await _run.Typed.ReadRecordAsync(id);
        Assert.All(
            read.Record!.Units.SelectMany(unit => unit.Entries!),
            entry => Assert.Equal("3.81 mm", entry.Value)
        );
        Assert.StartsWith(
            "%PDF-",
            System.Text.Encoding.ASCII.GetString(await _run.BytesAsync($"api/records/{id}/report")),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task Field_LeftAsItWas_DoesNotUndoWhatWasWrittenIntoTheRecord()
    {
        var page = await OpenAsync(HeightCheck);
        Fill(page, "3.81");
        var judged = await SendAsync(page, "judge");
        judged.Fields["record"] = judged.Record.Replace("3.81 mm", "3 13/16 in", StringComparison.Ordinal);

        var again = await SendAsync(judged, "judge");

        Assert.Contains("3 13/16 in", again.Record, StringComparison.Ordinal);
        Assert.DoesNotContain("3.81 mm", again.Record, StringComparison.Ordinal);
        Assert.Equal(
            ("3 13/16", "in"),
            (again.Fields["/units/0/entries/0/value"], again.Fields["unit:/units/0/entries/0/value"])
        );
    }

    [Theory]
    [InlineData("bench?machine=M-99&task=height-check", "There is no machine `M-99`")]
    [InlineData("bench?machine=M-02&task=polish", "There is no task `polish`")]
    [InlineData("bench?machine=M-02&task=height-check&procedure=P-none", "`P-none` does not cover M-02")]
    [InlineData("bench?machine=M-02&task=height-check&person=nobody", "`nobody` is not in the register")]
    public async Task Choice_ThatIsNone_IsToldAndTheListsAreShownAgain(string path, string told)
    {
        var page = WebUtility.HtmlDecode(await _run.TextAsync(path));

        Assert.Contains(told, page, StringComparison.Ordinal);
        Assert.Contains("Begin a job", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Technician_OfAnotherName_BeginsInTheirOwnAndSeesNobodyOfEarlierJobs()
    {
        using var other = _run.ClientWith(_run.NewKey(Roles.Technician, "tech-01"));

        var page = FilledPage.Of(await other.GetStringAsync(new Uri(HeightCheck, UriKind.Relative)));

        Assert.Contains("U-02-3", page.Record, StringComparison.Ordinal);
        Assert.Contains("tech-01", page.Record, StringComparison.Ordinal);
        Assert.DoesNotContain("tech-02", page.Html, StringComparison.Ordinal);
        Assert.DoesNotContain("L-21", page.Html, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("M-05", "touch-up", "clearance")]
    [InlineData("M-02", "full-service", "reel-diameter")]
    [InlineData("GRINDER-1", "grind", "")]
    [InlineData("M-10", "daily-check", "")]
    public async Task Record_BegunAtAnyMachine_AsksForWhatTheRulesAskFor(
        string machine,
        string task,
        string quantity
    )
    {
        var page = await OpenAsync($"bench?machine={machine}&task={task}&person=tech-01");

        var record = JsonNode.Parse(page.Record)!;
        Assert.Equal(machine, record["machine"]!["id"]!.GetValue<string>());
        Assert.NotEmpty(record["timeline"]!.AsArray());
        // Units of M-05 were never written down here.
        Assert.Equal(
            machine == "M-02" && quantity.Length > 0,
            record["units"]!.ToJsonString().Contains($"\"{quantity}\"", StringComparison.Ordinal)
                && quantity.Length > 0
        );
    }
}
