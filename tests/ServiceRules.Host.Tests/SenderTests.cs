using System.Net;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Microsoft.Extensions.DependencyInjection;
using ServiceRules.Application.Accounts;
using ServiceRules.Client;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Tests.Accounts;
using ServiceRules.TestKit;

namespace ServiceRules.Host.Tests;

/// <summary>What the log and the reports of the service say of who sent a record.</summary>
public sealed class SenderTests(SharedService shared) : IClassFixture<SharedService>
{
    private const string NotChecked = "no sign-in was checked";

    private readonly ServiceRun _run = shared.Run;

    private static byte[] Record(string id, string day) =>
        ServiceRun.Record("height-check", ("F-height-check", id), ("2026-04-13", day));

    private static byte[] Open(string id, string day)
    {
        var record = JsonNode.Parse(Record(id, day))!.AsObject();
        Assert.True(record.Remove("signOff"));
        return Encoding.UTF8.GetBytes(record.ToJsonString());
    }

    private static async Task FileAsync(HttpClient client, byte[] record)
    {
        using var body = new ByteArrayContent(record);
        body.Headers.ContentType = new("application/json");
        using var filed = await client.PostAsync(new Uri("api/records", UriKind.Relative), body);
        Assert.True(filed.StatusCode == HttpStatusCode.Created, await filed.Content.ReadAsStringAsync());
    }

    private async Task<JsonElement> EntryAsync(string id)
    {
        var versions = (await _run.GetJsonAsync($"api/records/{id}")).GetProperty("versions");
        var index = versions[versions.GetArrayLength() - 1]
            .GetProperty("entry")
            .GetProperty("index")
            .GetInt64();
        return await _run.GetJsonAsync($"api/ledger/entries/{index}");
    }

    // As it is read aloud: lines that break are put together again.
    private async Task<string> ReportAsync(string id)
    {
        using var product = new Product();
        var path = product.Write("report.pdf", await _run.BytesAsync($"api/records/{id}/report"));
        var told = Tool.Require("pdftotext").Run("-raw", path, "-").StandardOutput;
        return string.Join(' ', told.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
    }

    [SkippableFact]
    public async Task Record_OfSomebodyWhoHadSignedIn_IsToldAsSuchInTheLogAndOnTheReport()
    {
        string password;
        await using (var scope = _run.Service.Services.CreateAsyncScope())
        {
            password = await scope
                .ServiceProvider.GetRequiredService<AccountDesk>()
                .PutAsync("sam.green", Roles.Technician, "tech-02", AccountAct.Machine);
        }

        var account = _run.Get<IAccountStore>().Accounts().Single(one => one.Name == "sam.green");
        using var browser = new Browser(_run);
        Assert.Equal(303, await browser.SignInAsync("sam.green", password));
        using var filed = await browser.SendAsync(
            "bench",
            "bench",
            ("record", Encoding.UTF8.GetString(Record("S-bench", "2026-04-13"))),
            ("do", "submit")
        );
        Assert.Equal(HttpStatusCode.OK, filed.StatusCode);

        var entry = await EntryAsync("S-bench");

        var sender = entry.GetProperty("sender");
        Assert.Equal($"account:{account.Id}", sender.GetProperty("name").GetString());
        Assert.Equal("/people/0/id", sender.GetProperty("place").GetString());
        Assert.Equal(entry.GetProperty("by").GetString(), sender.GetProperty("person").GetString());
        var raw = entry.GetRawText();
        Assert.DoesNotContain("tech-02", raw, StringComparison.Ordinal);
        Assert.DoesNotContain("sam.green", raw, StringComparison.Ordinal);
        var report = await ReportAsync("S-bench");
        Assert.Contains(
            $"filed over the service by account:{account.Id}, which had signed in and stands for tech-02;",
            report,
            StringComparison.Ordinal
        );
        Assert.DoesNotContain(NotChecked, report, StringComparison.Ordinal);
        Assert.DoesNotContain("sam.green", report, StringComparison.Ordinal);
        var shown = Shown("S-bench");
        Assert.Contains(
            $"sent to the service by account:{account.Id}, which had signed in; it stands for tech-02",
            shown,
            StringComparison.Ordinal
        );
    }

    [SkippableFact]
    public async Task Record_ThatAProgramSent_IsToldWithItsKey()
    {
        using var filed = await _run.PostAsync("api/records", Record("S-key", "2026-04-14"));
        Assert.Equal(HttpStatusCode.Created, filed.StatusCode);
        var key = _run.Get<IAccountStore>().Key(DrawnSecret.Hash(_run.Key))!;

        var sender = (await EntryAsync("S-key")).GetProperty("sender");

        Assert.Equal($"key:{key.Id}", sender.GetProperty("name").GetString());
        Assert.False(sender.TryGetProperty("person", out _));
        Assert.Contains(
            $"filed over the service with key:{key.Id}, which stands for nobody in the register;",
            await ReportAsync("S-key"),
            StringComparison.Ordinal
        );
        using var held = new MemoryStream(await _run.BytesAsync("api/records/S-key/report"));
        VerificationAnswer verified = await _run.Typed.VerifyAsync(held);
        Assert.Equal("genuine", verified.Standing);
        Assert.Contains(
            verified.Points,
            point =>
                point.Told.Contains($"filed over the service with key:{key.Id}", StringComparison.Ordinal)
        );
    }

    [Fact]
    public async Task Record_OfWhomALeadDoesNotSay_IsFiledByTheLead()
    {
        var signedOff = Record("S-signed", "2026-04-16");
        using var lead = _run.ClientWith(_run.NewKey(Roles.Lead, "lead-01"));
        await FileAsync(lead, signedOff);
        await FileAsync(_run.Client, Open("S-carried", "2026-04-17"));
        await FileAsync(lead, Record("S-carried", "2026-04-17"));
        await FileAsync(_run.Client, Record("S-nobody", "2026-04-18"));

        var signed = await EntryAsync("S-signed");
        var carried = await EntryAsync("S-carried");
        var nobody = await EntryAsync("S-nobody");

        var person = signed.GetProperty("sender").GetProperty("person").GetString();
        Assert.Equal(person, signed.GetProperty("by").GetString());
        Assert.Equal(person, carried.GetProperty("by").GetString());
        // A key that stands for nobody: who signed it off.
        Assert.StartsWith("p-", nobody.GetProperty("by").GetString(), StringComparison.Ordinal);
        Assert.NotEqual(person, nobody.GetProperty("by").GetString());
    }

    [Fact]
    public async Task Bench_OfALead_FilesByTheLead()
    {
        using var lead = _run.ClientWith(_run.NewKey(Roles.Lead, "lead-01"));
        using var form = new FormUrlEncodedContent([
            new("record", Encoding.UTF8.GetString(Record("S-bench-lead", "2026-04-19"))),
            new("do", "submit"),
        ]);
        using var filed = await lead.PostAsync(new Uri("bench", UriKind.Relative), form);
        Assert.Equal(HttpStatusCode.OK, filed.StatusCode);

        var entry = await EntryAsync("S-bench-lead");

        Assert.Equal(
            entry.GetProperty("sender").GetProperty("person").GetString(),
            entry.GetProperty("by").GetString()
        );
    }

    [Fact]
    public async Task Version_TellsWhoSentIt_ToATechnicianByPseudonymAlone()
    {
        var secret = _run.NewKey(Roles.Lead, "lead-01");
        var key = $"key:{_run.Get<IAccountStore>().Key(DrawnSecret.Hash(secret))!.Id}";
        using var lead = _run.ClientWith(secret);
        await FileAsync(lead, Record("S-told", "2026-04-20"));
        using var officer = _run.ClientWith(_run.NewKey(Roles.Officer));
        using var technician = _run.ClientWith(_run.NewKey(Roles.Technician, "tech-02"));
        var pseudonym = (await EntryAsync("S-told")).GetProperty("by").GetString();

        var whole = await SenderAsync(officer, "S-told");
        var part = await SenderAsync(technician, "S-told");

        Assert.Equal(key, whole.GetProperty("name").GetString());
        Assert.Equal(pseudonym, whole.GetProperty("person").GetString());
        Assert.Equal("lead-01", whole.GetProperty("standsFor").GetString());
        Assert.Equal(key, part.GetProperty("name").GetString());
        Assert.Equal(pseudonym, part.GetProperty("person").GetString());
        Assert.False(part.TryGetProperty("standsFor", out _));
        Assert.Contains(
            $"<div>Sent to the service with {key}; it stands for lead-01 ({pseudonym}).</div>",
            await TextAsync(officer, "records/S-told"),
            StringComparison.Ordinal
        );
        var seen = await TextAsync(technician, "records/S-told");
        Assert.Contains(
            $"<div>Sent to the service with {key}; it stands for {pseudonym}.</div>",
            seen,
            StringComparison.Ordinal
        );
        Assert.DoesNotContain("lead-01", seen, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Version_OfAKeyThatStandsForNobody_TellsTheKeyAlone()
    {
        await FileAsync(_run.Client, Record("S-told-key", "2026-04-21"));

        var sender = await SenderAsync(_run.Client, "S-told-key");

        Assert.Equal(
            $"key:{_run.Get<IAccountStore>().Key(DrawnSecret.Hash(_run.Key))!.Id}",
            sender.GetProperty("name").GetString()
        );
        Assert.False(sender.TryGetProperty("person", out _));
        Assert.Contains(
            $"<div>Sent to the service with {sender.GetProperty("name").GetString()}.</div>",
            await _run.TextAsync("records/S-told-key"),
            StringComparison.Ordinal
        );
    }

    private static Task<string> TextAsync(HttpClient client, string path) =>
        client.GetStringAsync(new Uri(path, UriKind.Relative));

    private static async Task<JsonElement> SenderAsync(HttpClient client, string id)
    {
        using var answer = JsonDocument.Parse(await TextAsync(client, $"api/records/{id}"));
        return answer.RootElement.GetProperty("versions")[0].GetProperty("sender").Clone();
    }

    [Fact]
    public async Task Correction_NamesWhoSentTheCorrection()
    {
        using var technician = _run.ClientWith(_run.NewKey(Roles.Technician, "tech-02"));
        var first = Record("S-both", "2026-04-15");
        using var content = new ByteArrayContent(first);
        content.Headers.ContentType = new("application/json");
        using var filed = await technician.PostAsync(new Uri("api/records", UriKind.Relative), content);
        Assert.Equal(HttpStatusCode.Created, filed.StatusCode);
        var before = (await EntryAsync("S-both")).GetProperty("sender").GetProperty("name").GetString();

        using var amended = await _run.PostAsync(
            "api/records/S-both/amendments?by=lead-01&reason=x",
            Encoding.UTF8.GetBytes(
                Encoding.UTF8.GetString(first).Replace("3.82 mm", "3.84 mm", StringComparison.Ordinal)
            )
        );
        Assert.Equal(HttpStatusCode.Created, amended.StatusCode);

        var after = (await EntryAsync("S-both")).GetProperty("sender").GetProperty("name").GetString();
        Assert.NotEqual(before, after);
        Assert.Equal($"key:{_run.Get<IAccountStore>().Key(DrawnSecret.Hash(_run.Key))!.Id}", after);
    }

    private string Shown(string id)
    {
        using var product = new Product();
        var shown = product.Run("ledger", "show", id, "--ledger", Path.Combine(_run.Folder, "data"));
        Assert.True(shown.ExitCode == 0, shown.ToString());
        return string.Join(
            ' ',
            shown.StandardOutput.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)
        );
    }
}
