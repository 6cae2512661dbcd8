using System.Globalization;
using System.IO.Compression;
using System.Net.Http.Headers;
using System.Text;
using ServiceRules.Application.Accounts;
using ServiceRules.Application.Packs;
using ServiceRules.Rules.Model;

namespace ServiceRules.Host.Tests.Pages;

/// <summary>The rules in force, compared with others and replaced by them at a page.</summary>
public sealed class RulesPageTests : IAsyncLifetime
{
    private ServiceRun _run = null!;

    public async Task InitializeAsync() => _run = await ServiceRun.StartAsync();

    public async Task DisposeAsync() => await _run.DisposeAsync();

    private HttpClient As(Roles roles) => _run.ClientWith(_run.NewKey(roles));

    [Fact]
    public async Task Rules_Stored_AreComparedPutInForceAndJudgeTheHistoryAgain()
    {
        await FileAsync("A-1");
        var milder = Keep(await MilderAsync());
        using var lead = As(Roles.Lead);
        using var officer = As(Roles.Officer);
        var before = (await SentPage.GetAsync(officer, "rules")).Html;
        Assert.Contains("the rules of the folder at the first start", before, StringComparison.Ordinal);
        Assert.Contains($"<code>{milder}</code>", before, StringComparison.Ordinal);
        Assert.DoesNotContain("Put these in force", before, StringComparison.Ordinal);

        var compared = await SentPage.SendAsync(
            officer,
            "rules/comparison",
            ("digest", milder),
            ("newest", "10")
        );
        Assert.Equal(200, compared.Status);
        Assert.Contains(
            "1 records were judged by the rules in force",
            compared.Html,
            StringComparison.Ordinal
        );
        Assert.Contains("href=\"/records/A-1\"", compared.Html, StringComparison.Ordinal);
        Assert.Contains("hold, would be may go out", Flat(compared.Html), StringComparison.Ordinal);

        (string, string)[] act = [("digest", milder), ("by", "lead-01"), ("reason", "milder")];
        var activated = await SentPage.SendAsync(lead, "rules/activation", act);
        var again = await SentPage.SendAsync(lead, "rules/activation", act);
        Assert.Equal(303, activated.Status);
        Assert.Equal(activated.Place, again.Place);
        var after = (await SentPage.GetAsync(lead, activated.Place)).Html;
        Assert.Contains("These rules judge from now on.", after, StringComparison.Ordinal);
        Assert.Contains("milder (lead-01)", Flat(after), StringComparison.Ordinal);

        var begun = await SentPage.SendAsync(
            lead,
            "rules/rejudging",
            ("digest", milder),
            ("reason", "milder")
        );
        var twice = await SentPage.SendAsync(
            lead,
            "rules/rejudging",
            ("digest", milder),
            ("reason", "milder")
        );
        Assert.Equal((303, 303), (begun.Status, twice.Status));
        var done = await UntilAsync(lead, "It is done.");
        // Also where it was done between two presses.
        var thrice = await SentPage.SendAsync(lead, "rules/rejudging", ("digest", milder));
        Assert.Equal(begun.Place, thrice.Place);
        Assert.Single(
            _run.Get<IAccountStore>().Acts(null, 100),
            act => act.What == AccountAct.RejudgingBegun
        );
        Assert.Contains(
            "1 of 1 records are looked at: 1 come out otherwise",
            Flat(done),
            StringComparison.Ordinal
        );
        Assert.Equal(
            "release",
            (await _run.GetJsonAsync("api/records?limit=1"))
                .GetProperty("items")[0]
                .GetProperty("disposition")
                .GetString()
        );
    }

    [Fact]
    public async Task Rules_ThatCannotComeIntoForce_AreRefusedAtTheirFields()
    {
        var milder = Keep(await MilderAsync());
        using var lead = As(Roles.Lead);

        var silent = await SentPage.SendAsync(lead, "rules/activation", ("digest", milder));
        var named = await SentPage.SendAsync(
            lead,
            "rules/activation",
            ("digest", milder),
            ("by", "lead-01"),
            ("reason", "as tech-03 asked")
        );
        var unknown = await SentPage.SendAsync(
            lead,
            "rules/activation",
            ("digest", "sha256:00"),
            ("by", "lead-01"),
            ("reason", "x")
        );
        var many = await SentPage.SendAsync(lead, "rules/comparison", ("digest", milder), ("newest", "5000"));
        var early = await SentPage.SendAsync(lead, "rules/rejudging", ("digest", milder));

        Assert.Equal(
            (422, 422, 404, 422, 422),
            (silent.Status, named.Status, unknown.Status, many.Status, early.Status)
        );
        var form = "activate-" + milder["sha256:".Length..][..12];
        Assert.Contains($"href=\"#{form}-by\">", silent.Html, StringComparison.Ordinal);
        Assert.Contains($"id=\"{form}-reason-wrong\"", named.Html, StringComparison.Ordinal);
        Assert.Contains("accepted: 1 to 1000", many.Html, StringComparison.Ordinal);
        Assert.Contains("Other rules came into force meanwhile", early.Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Archive_OfAFolder_IsCheckedAndStoredAndWhatIsWrongIsTold()
    {
        using var lead = As(Roles.Lead);
        using var officer = As(Roles.Officer);

        // Kept already, so that no case is run for it again.
        const string Title = "Otherwise titled";
        var packs = ServiceRun.Rules.Book.Packs;
        _ = Keep(ServiceRun.Rules.Book with { Packs = [packs[0] with { Title = Title }, .. packs.Skip(1)] });
        var stored = await UploadAsync(lead, "rules", Shipped(packs[0].Title, Title));
        Assert.True(stored.Status == 303, stored.Html);
        var page = (await SentPage.GetAsync(lead, stored.Place)).Html;
        Assert.Contains(
            "is stored. It judges nothing until it is put in force.",
            page,
            StringComparison.Ordinal
        );
        Assert.Contains("Put these in force", page, StringComparison.Ordinal);

        var wrong = await UploadAsync(officer, "rules/check", [("base/pack.json", "{}")]);
        var broken = await UploadAsync(officer, "rules/check", null);
        var none = await SentPage.SendAsync(officer, "rules/check");
        var mayNot = await UploadAsync(officer, "rules", [("base/pack.json", "{}")]);

        Assert.Equal((422, 422, 422, 403), (wrong.Status, broken.Status, none.Status, mayNot.Status));
        Assert.Contains("What is wrong with the rules of the archive", wrong.Html, StringComparison.Ordinal);
        Assert.Contains("base/pack.json", wrong.Html, StringComparison.Ordinal);
        Assert.Contains("No file was chosen", none.Html, StringComparison.Ordinal);
        Assert.Contains("id=\"archive-file-wrong\"", broken.Html, StringComparison.Ordinal);
    }

    private static string Flat(string html) =>
        string.Join(' ', html.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

    private static async Task<SentPage> UploadAsync(
        HttpClient client,
        string path,
        IEnumerable<(string Name, string Text)>? files
    )
    {
        using var held = new MemoryStream();
        if (files is null)
        {
            held.Write("no archive"u8);
        }
        else
        {
            using var zip = new ZipArchive(held, ZipArchiveMode.Create, leaveOpen: true);
            foreach (var (name, text) in files)
            {
                using var entry = zip.CreateEntry(name).Open();
                entry.Write(Encoding.UTF8.GetBytes(text));
            }
        }

        using var content = new ByteArrayContent(held.ToArray());
        content.Headers.ContentType = new MediaTypeHeaderValue("application/zip");
        using var form = new MultipartFormDataContent { { content, "file", "rules.zip" } };
        using var answer = await client.PostAsync(new Uri(path, UriKind.Relative), form);
        return await SentPage.OfAsync(answer);
    }

    // With another title for one pack, which makes another set of which no verdict is another.
    private static List<(string, string)> Shipped(string title, string other)
    {
        var folder = TestKit.ReferenceFiles.InRepository("rules");
        return
        [
            .. Directory
                .EnumerateFiles(folder, "*.json", SearchOption.AllDirectories)
                .Select(file =>
                    (
                        Path.GetRelativePath(folder, file).Replace('\\', '/'),
                        File.ReadAllText(file)
                            .Replace(
                                $"\"title\": \"{title}\"",
                                $"\"title\": \"{other}\"",
                                StringComparison.Ordinal
                            )
                    )
                ),
        ];
    }

    private static byte[] TooHigh(string id) =>
        ServiceRun.Record(
            "height-check",
            ("F-height-check", id),
            ("2026-04-13", "2026-04-" + (12 + int.Parse(id.AsSpan(2), CultureInfo.InvariantCulture))),
            ("3.82 mm", "4.90 mm")
        );

    private async Task FileAsync(string id)
    {
        using var filed = await _run.PostAsync("api/records", TooHigh(id));
        Assert.Equal(201, (int)filed.StatusCode);
    }

    /// <summary>The rules without those that hold a unit that is set too high.</summary>
    private async Task<RuleBook> MilderAsync()
    {
        using var judged = await _run.PostAsync("api/judgements", TooHigh("A-9"));
        var breached = (await ServiceRun.JsonAsync(judged))
            .GetProperty("findings")
            .EnumerateArray()
            .Where(finding => finding.GetProperty("verdict").GetString() == "not-met")
            .Select(finding => finding.GetProperty("rule").GetString())
            .ToHashSet();
        return ServiceRun.Rules.Book with
        {
            Packs =
            [
                .. ServiceRun.Rules.Book.Packs.Select(pack =>
                    pack with
                    {
                        Rules = [.. pack.Rules.Where(rule => !breached.Contains(rule.Id.Text))],
                    }
                ),
            ],
        };
    }

    private string Keep(RuleBook book)
    {
        var document = RuleDocument.Of(book);
        _ = _run.Get<StoreRules>().Keep(document, "key:test");
        return document.Digest;
    }

    private static async Task<string> UntilAsync(HttpClient client, string told)
    {
        var until = DateTime.UtcNow.AddSeconds(90);
        while (true)
        {
            var page = (await SentPage.GetAsync(client, "rules")).Html;
            if (page.Contains(told, StringComparison.Ordinal))
            {
                return page;
            }

            Assert.True(DateTime.UtcNow < until, page);
            await Task.Delay(200);
        }
    }
}
