using Microsoft.Playwright;
using ServiceRules.Application.Accounts;

namespace ServiceRules.Host.Tests.Chromium;

/// <summary>A job that is kept half filled in and carried on with, and what a browser is told where there is nothing, on a telephone.</summary>
public sealed class CarryOnInChromiumTests(ChromiumShop shop) : IClassFixture<ChromiumShop>
{
    private static readonly ViewportSize Narrow = new() { Width = 360, Height = 740 };

    [SkippableFact]
    public async Task Job_KeptAndCarriedOnWith_HasItsFieldsAndNoBarrier()
    {
        await using var seen = await shop.SignedInAsync("carries", Roles.Lead, Narrow);
        var page = seen.Page;
        await seen.OpenAsync("bench?machine=M-02&task=height-check&person=tech-02");
        var height = page.GetByLabel("height of cut, left", new() { Exact = true }).First;
        await height.FillAsync("3,81");
        await page.GetByLabel("machine shut down").FillAsync("08:04:00");
        await page.GetByRole(AriaRole.Button, new() { Name = "Judge" }).ClickAsync();

        await Assertions.Expect(height).ToHaveAccessibleDescriptionAsync("3,81 is not read; accepted: 3.81");
        None(await seen.BarriersAsync());
        await page.GetByRole(AriaRole.Link, new() { Name = "height of cut, left" }).First.ClickAsync();
        await height.FillAsync("3.81");
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep as an open job" }).ClickAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "M-02-" }).First.ClickAsync();

        await Assertions.Expect(page.GetByText("open, not signed off")).ToBeVisibleAsync();
        None(await seen.CutAsync());
        None(await seen.BarriersAsync());
        await page.GetByRole(AriaRole.Link, new() { Name = "Carry on with this job" }).ClickAsync();
        await Assertions.Expect(height).ToHaveValueAsync("3.81");
        await Assertions.Expect(page.GetByLabel("machine shut down")).ToHaveValueAsync("08:04:00");
        None(await seen.BarriersAsync());
        None(seen.Troubles);
    }

    [SkippableFact]
    public async Task Page_OfNothing_IsAPageOfTheHouse()
    {
        await using var seen = await shop.SignedInAsync("lost", Roles.Officer, Narrow);
        var answer = await seen.Page.GotoAsync("/records/J-none");

        Assert.Equal(404, answer!.Status);
        await Assertions
            .Expect(seen.Page.GetByRole(AriaRole.Heading, new() { Level = 1 }))
            .ToHaveTextAsync("There is nothing here");
        await Assertions
            .Expect(seen.Page.GetByRole(AriaRole.Link, new() { Name = "Bench" }))
            .ToHaveCountAsync(0);
        None(await seen.BarriersAsync());
        await seen.Page.GetByRole(AriaRole.Link, new() { Name = "To the start" }).ClickAsync();
        await Assertions.Expect(seen.Page).ToHaveTitleAsync("Start - ServiceRules");
    }

    private static void None(IReadOnlyCollection<string> found) =>
        Assert.True(found.Count == 0, string.Join('\n', found));
}
