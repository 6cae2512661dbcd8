using System.Text;
using Microsoft.Playwright;
using ServiceRules.Application.Accounts;

namespace ServiceRules.Host.Tests.Chromium;

/// <summary>The pages as Chromium shows them: what people do there, and what axe finds of barriers.</summary>
public sealed class PagesInChromiumTests(ChromiumShop shop) : IClassFixture<ChromiumShop>
{
    private const Roles Everything = Roles.Lead | Roles.Officer | Roles.Administrator;

    private static readonly string[] OfEverybody = ["sign-in", "first-administrator", "api"];

    private static readonly string[] OfThoseKnown =
    [
        "",
        "bench",
        "bench?machine=M-02&task=full-service&person=tech-02",
        "records",
        "records/J-1",
        "records/J-2",
        "records/J-3",
        "due",
        "due?within=365",
        "holds",
        "files",
        "rules",
        "waivers",
        "notices",
        "verify",
        "account",
        "people",
        "keys",
        "acts",
    ];

    private static string Record(string id, string day) =>
        Encoding.UTF8.GetString(
            ServiceRun.Record("height-check", ("F-height-check", id), ("2026-04-13", day))
        );

    [SkippableFact]
    public async Task Pages_OfEverybody_HaveNoBarrierAndAskNothingElsewhere()
    {
        await using var seen = await shop.NobodyAsync();
        await CheckAsync(seen, OfEverybody);
    }

    [SkippableFact]
    public async Task Pages_OfThoseKnown_HaveNoBarrierAndAskNothingElsewhere()
    {
        await using var seen = await shop.SignedInAsync("sees.all", Everything);
        await CheckAsync(seen, OfThoseKnown);
    }

    [SkippableFact]
    public async Task Pages_OnANarrowScreen_NeedNoScrollingSideways()
    {
        await using var seen = await shop.SignedInAsync(
            "narrow",
            Everything,
            new() { Width = 360, Height = 740 }
        );
        List<string> wide = [];
        foreach (var path in OfThoseKnown.Concat(OfEverybody))
        {
            await seen.OpenAsync(path);
            var beyond = await seen.Page.EvaluateAsync<int>(
                "document.documentElement.scrollWidth - document.documentElement.clientWidth"
            );
            if (beyond > 0)
            {
                wide.Add($"/{path}: {beyond} px");
            }

            if (path.StartsWith("records", StringComparison.Ordinal))
            {
                wide.AddRange((await seen.CutAsync()).Select(one => $"/{path}: {one}"));
            }
        }

        None(wide);
    }

    [SkippableFact]
    public async Task Bench_FromAPastedRecordToAVerifiedReport_LeadsWholeWay()
    {
        await using var seen = await shop.SignedInAsync("bench.lead", Roles.Lead);
        var page = seen.Page;
        await seen.OpenAsync("bench");
        await page.GetByLabel("Service record").FillAsync(Record("J-seen-1", "2026-07-01"));
        await page.GetByRole(AriaRole.Button, new() { Name = "Judge" }).ClickAsync();
        await Assertions
            .Expect(page.GetByRole(AriaRole.Heading, new() { Level = 2 }))
            .ToHaveTextAsync("may go out");
        None(await seen.BarriersAsync());

        await page.GetByRole(AriaRole.Button, new() { Name = "Submit" }).ClickAsync();
        var report = await seen.Page.Context.APIRequest.GetAsync(
            (await page.GetByRole(AriaRole.Link, new() { Name = "signed report" }).GetAttributeAsync("href"))!
        );
        Assert.True(report.Ok);
        await page.GetByRole(AriaRole.Link, new() { Name = "J-seen-1" }).ClickAsync();
        await Assertions.Expect(page).ToHaveTitleAsync("J-seen-1 - ServiceRules");

        await page.GetByRole(AriaRole.Link, new() { Name = "Verify", Exact = true }).ClickAsync();
        await page.GetByLabel("Signed report")
            .SetInputFilesAsync(
                new FilePayload
                {
                    Name = "J-seen-1.pdf",
                    MimeType = "application/pdf",
                    Buffer = await report.BodyAsync(),
                }
            );
        await page.GetByRole(AriaRole.Button, new() { Name = "Verify" }).ClickAsync();
        await Assertions.Expect(page.Locator("#standing")).ToHaveTextAsync("Genuine");
        None(await seen.BarriersAsync());
        None(seen.Troubles);
    }

    [SkippableFact]
    public async Task Bench_FromAMachineToTheReadings_AsksByFormAndPutsThemIntoTheRecord()
    {
        await using var seen = await shop.SignedInAsync(
            "begins",
            Roles.Lead,
            new() { Width = 360, Height = 740 }
        );
        var page = seen.Page;
        await seen.OpenAsync("bench");
        await page.GetByLabel("Machine").SelectOptionAsync("M-02");
        await page.GetByLabel("Task").SelectOptionAsync("height-check");
        await page.GetByRole(AriaRole.Button, new() { Name = "Begin" }).ClickAsync();
        await page.GetByLabel("height of cut, left", new() { Exact = true }).First.FillAsync("3.84");
        await page.GetByLabel("machine shut down").FillAsync("08:04:00");
        await page.GetByRole(AriaRole.Button, new() { Name = "Judge" }).ClickAsync();

        await Assertions.Expect(page.Locator("#problems")).ToHaveTextAsync("Refused");
        var record = await page.GetByLabel("Service record").InputValueAsync();
        Assert.Contains("\"3.84 mm\"", record, StringComparison.Ordinal);
        Assert.Contains("T08:04:00", record, StringComparison.Ordinal);
        None(await seen.BarriersAsync());
        None(seen.Troubles);
    }

    [SkippableFact]
    public async Task Bench_ByTheKeyboardAlone_JudgesAndTellsWhatIsRefused()
    {
        await using var seen = await shop.SignedInAsync("keys.only", Roles.Lead);
        var page = seen.Page;
        await seen.OpenAsync("bench");
        await page.Locator("nav a").Last.FocusAsync();
        // Past the four choices and the button that begin a job.
        for (var press = 0; press < 6; press++)
        {
            await page.Keyboard.PressAsync("Tab");
        }

        await page.Keyboard.TypeAsync("{ \"format\": 1 }");
        await page.Keyboard.PressAsync("Tab");
        await page.Keyboard.PressAsync("Enter");

        await Assertions.Expect(page.Locator("#problems")).ToHaveTextAsync("Refused");
        None(await seen.BarriersAsync());
    }

    [SkippableFact]
    public async Task Records_Filtered_ShowThoseAskedForAndLeadToOne()
    {
        await using var seen = await shop.SignedInAsync("filters", Roles.Officer);
        var page = seen.Page;
        await page.GetByLabel("Outcome").SelectOptionAsync("hold");
        await page.GetByRole(AriaRole.Button, new() { Name = "Show" }).ClickAsync();

        await Assertions.Expect(page.GetByRole(AriaRole.Link, new() { Name = "J-2" })).ToBeVisibleAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Link, new() { Name = "J-1" })).ToHaveCountAsync(0);
        await page.GetByRole(AriaRole.Link, new() { Name = "J-2" }).ClickAsync();
        await Assertions.Expect(page.GetByText("not met").First).ToBeVisibleAsync();
        None(seen.Troubles);
    }

    // Told whole, which a collection that is not empty would not be.
    private static void None(IReadOnlyCollection<string> found) =>
        Assert.True(found.Count == 0, string.Join('\n', found));

    private static async Task CheckAsync(SeenPage seen, string[] paths)
    {
        List<string> barriers = [];
        foreach (var path in paths)
        {
            await seen.OpenAsync(path);
            barriers.AddRange((await seen.BarriersAsync()).Select(one => $"/{path}: {one}"));
        }

        None(barriers);
        None(seen.Troubles);
    }
}
