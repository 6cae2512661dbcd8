using System.Text.RegularExpressions;
using Microsoft.Playwright;
using ServiceRules.Application.Accounts;
using ServiceRules.Application.Packs;

namespace ServiceRules.Host.Tests.Chromium;

/// <summary>What leads and officers do at pages, on a telephone and without a script.</summary>
public sealed partial class OverseersInChromiumTests(ChromiumShop shop) : IClassFixture<ChromiumShop>
{
    private static readonly ViewportSize Narrow = new() { Width = 360, Height = 740 };

    [SkippableFact]
    public async Task Record_CommentedHeldAndFree_LeadsAnOfficerTheWholeWay()
    {
        await using var seen = await shop.SignedInAsync("officer.says", Roles.Officer, Narrow);
        var page = seen.Page;
        await seen.OpenAsync("records/J-2");
        await page.GetByRole(AriaRole.Link, new() { Name = "Comments" }).ClickAsync();
        var text = page.GetByLabel("Comment", new() { Exact = true });
        await text.FillAsync("   ");
        await page.GetByLabel("Who answers for it").First.SelectOptionAsync("officer-01");
        await page.GetByRole(AriaRole.Button, new() { Name = "File the comment" }).ClickAsync();

        await Assertions.Expect(text).ToHaveAccessibleDescriptionAsync(NothingSaid());
        await Assertions.Expect(page.GetByLabel("Who answers for it").First).ToHaveValueAsync("officer-01");
        None(await seen.BarriersAsync());
        None(await seen.CutAsync());
        await page.GetByRole(AriaRole.Link, new() { Name = "Nothing is said" }).ClickAsync();
        await text.FillAsync("Read again by another hand.");
        await page.GetByRole(AriaRole.Button, new() { Name = "File the comment" }).DblClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("The comment stands.");
        await Assertions.Expect(page.GetByText("Read again by another hand.")).ToHaveCountAsync(1);

        await page.GetByText("Put a hold on this record").ClickAsync();
        await page.GetByLabel("Why it is kept").FillAsync("an inspection comes");
        await page.GetByLabel("Who answers for it").Last.SelectOptionAsync("officer-01");
        await page.GetByRole(AriaRole.Button, new() { Name = "Put on the hold" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("H-1 keeps this record.");
        None(await seen.BarriersAsync());
        await page.GetByText("Lift H-1").First.ClickAsync();
        await page.GetByLabel("Why it is lifted").FillAsync("it is over");
        await page.GetByLabel("Who answers for it").Nth(1).SelectOptionAsync("officer-01");
        await page.GetByRole(AriaRole.Button, new() { Name = "Lift H-1" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("H-1 is lifted.");
        None(await seen.BarriersAsync());
        None(await seen.CutAsync());
        Refused(seen, 1);
    }

    [SkippableFact]
    public async Task Files_AskedFor_AreFetchedWhenTheyAreReady()
    {
        await using var seen = await shop.SignedInAsync("officer.fetches", Roles.Officer, Narrow);
        var page = seen.Page;
        await seen.OpenAsync("files");
        await page.GetByLabel("First day").FillAsync("2026-04-01");
        await page.GetByLabel("Last day").FillAsync("2026-04-30");
        await page.GetByRole(AriaRole.Button, new() { Name = "Ask for it" }).DblClickAsync();
        await Assertions
            .Expect(page.GetByRole(AriaRole.Status))
            .ToContainTextAsync("Asked for: Signed report");
        None(await seen.BarriersAsync());

        var fetch = page.GetByRole(AriaRole.Link, new() { Name = "Fetch" });
        for (var turn = 0; turn < 100 && await fetch.CountAsync() == 0; turn++)
        {
            await Task.Delay(500);
            await seen.OpenAsync("files");
        }

        await Assertions.Expect(fetch).ToHaveCountAsync(1);
        var file = await page.Context.APIRequest.GetAsync((await fetch.GetAttributeAsync("href"))!);
        Assert.True(file.Ok);
        None(await seen.BarriersAsync());
        None(await seen.CutAsync());
        None(seen.Troubles);
    }

    [SkippableFact]
    public async Task Waiver_EnteredAndWithdrawn_HasNoBarrier()
    {
        await using var seen = await shop.SignedInAsync("lead.waives", Roles.Lead, Narrow);
        var page = seen.Page;
        await seen.OpenAsync("waivers");
        await page.GetByLabel("Rule").SelectOptionAsync("height-in-range");
        await page.GetByLabel("First day").FillAsync("2026-05-01");
        await page.GetByLabel("Last day").FillAsync("2026-04-30");
        await page.GetByLabel("Why", new() { Exact = true }).FillAsync("the wet spring");
        await page.GetByLabel("Who answers for it").SelectOptionAsync("lead-01");
        var enter = page.GetByRole(AriaRole.Button, new() { Name = "Enter the waiver" });
        await enter.ClickAsync();

        await Assertions
            .Expect(page.GetByLabel("Last day"))
            .ToHaveAccessibleDescriptionAsync(DaysAreTurned());
        None(await seen.BarriersAsync());
        await page.GetByLabel("Last day").FillAsync("2026-05-31");
        await enter.DblClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("W-1 is entered.");
        None(await seen.BarriersAsync());
        None(await seen.CutAsync());
        await page.GetByText("Withdraw W-1").First.ClickAsync();
        await page.GetByLabel("Why it is withdrawn").FillAsync("it is dry");
        await page.GetByRole(AriaRole.Button, new() { Name = "Withdraw W-1" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("W-1 is withdrawn.");
        Refused(seen, 1);
    }

    [SkippableFact]
    public async Task Rules_ComparedAndPutInForce_HaveNoBarrier()
    {
        var book = ServiceRun.Rules.Book;
        var document = RuleDocument.Of(
            book with
            {
                Packs =
                [
                    book.Packs[0] with
                    {
                        Rules = [.. book.Packs[0].Rules.Where(rule => rule.Id.Text != "height-on-target")],
                    },
                    .. book.Packs.Skip(1),
                ],
            }
        );
        _ = shop.Run.Get<StoreRules>().Keep(document, "key:test");
        await using var seen = await shop.SignedInAsync("lead.rules", Roles.Lead, Narrow);
        var page = seen.Page;
        await seen.OpenAsync("rules");
        await page.GetByText("Compare with those in force").ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Compare" }).ClickAsync();

        await Assertions
            .Expect(
                page.GetByRole(AriaRole.Heading, new() { Name = "What the newest records would come to" })
            )
            .ToBeVisibleAsync();
        None(await seen.BarriersAsync());
        None(await seen.CutAsync());
        await page.GetByText("Put in force").ClickAsync();
        await page.GetByLabel("Why they come into force").FillAsync("new season");
        await page.GetByLabel("Who answers for it").SelectOptionAsync("lead-01");
        await page.GetByRole(AriaRole.Button, new() { Name = "Put these in force" }).DblClickAsync();
        await Assertions
            .Expect(page.GetByRole(AriaRole.Status))
            .ToContainTextAsync("These rules judge from now on.");
        await page.GetByRole(AriaRole.Button, new() { Name = "Judge the history again" }).ClickAsync();
        await Assertions
            .Expect(page.GetByRole(AriaRole.Status))
            .ToContainTextAsync("The history is judged again");
        None(await seen.BarriersAsync());
        None(await seen.CutAsync());
        None(seen.Troubles);
    }

    // A refusal is a page of another status, which the console tells, and nothing else may be told there.
    private static void Refused(SeenPage seen, int times)
    {
        Assert.Equal(times, seen.Troubles.Count(IsRefusal));
        None([.. seen.Troubles.Where(one => !IsRefusal(one))]);

        static bool IsRefusal(string one) => one.Contains("status of 422", StringComparison.Ordinal);
    }

    private static void None(IReadOnlyCollection<string> found) =>
        Assert.True(found.Count == 0, string.Join('\n', found));

    [GeneratedRegex("Nothing is said")]
    private static partial Regex NothingSaid();

    [GeneratedRegex("The last day is before the first")]
    private static partial Regex DaysAreTurned();
}
