using System.Net;
using Microsoft.Extensions.DependencyInjection;
using ServiceRules.Application.Accounts;
using ServiceRules.Host.Accounts;

namespace ServiceRules.Host.Tests.Accounts;

/// <summary>An account is not removed by one click.</summary>
public sealed class RemovalTests(SharedService shared) : IClassFixture<SharedService>
{
    private readonly ServiceRun _run = shared.Run;

    [Fact]
    public async Task Remove_IsAskedOnceMoreOnAPageThatSaysWhatItDoes()
    {
        var password = await PutAsync("removing.admin", Roles.Administrator, null);
        _ = await PutAsync("leaves", Roles.Technician, "tech-01");
        using var browser = new Browser(_run);
        Assert.Equal(303, await browser.SignInAsync("removing.admin", password));
        var id = _run.Get<IAccountStore>().Accounts().Single(one => one.Name == "leaves").Id;

        using var list = await browser.GetAsync("people");
        var people = await list.Content.ReadAsStringAsync();
        Assert.Contains($"href=\"/people/{id}/removal\"", people, StringComparison.Ordinal);
        Assert.DoesNotContain($"action=\"/people/{id}/remove\"", people, StringComparison.Ordinal);

        using var asked = await browser.GetAsync($"people/{id}/removal");
        var page = WebUtility.HtmlDecode(await asked.Content.ReadAsStringAsync());
        Assert.Equal(HttpStatusCode.OK, asked.StatusCode);
        Assert.Contains("Remove leaves?", page, StringComparison.Ordinal);
        Assert.Contains("which stands for tech-01", page, StringComparison.Ordinal);
        Assert.Contains("cannot be undone", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<script", page, StringComparison.Ordinal);
        Assert.Contains(_run.Get<IAccountStore>().Accounts(), one => one.Id == id);

        using var removed = await browser.SendAsync($"people/{id}/removal", $"people/{id}/remove");
        Assert.Equal(HttpStatusCode.SeeOther, removed.StatusCode);
        Assert.DoesNotContain(_run.Get<IAccountStore>().Accounts(), one => one.Id == id);
        Assert.Equal(404, await browser.StatusAsync($"people/{id}/removal"));
    }

    private async Task<string> PutAsync(string name, Roles roles, string? person)
    {
        await using var scope = _run.Service.Services.CreateAsyncScope();
        return await scope
            .ServiceProvider.GetRequiredService<AccountDesk>()
            .PutAsync(name, roles, person, AccountAct.Machine);
    }
}
