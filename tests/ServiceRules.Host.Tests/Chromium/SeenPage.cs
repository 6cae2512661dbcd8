using Deque.AxeCore.Playwright;
using Microsoft.Playwright;

namespace ServiceRules.Host.Tests.Chromium;

/// <summary>A page in Chromium, with what it asked for and what its console told since it was opened.</summary>
public sealed class SeenPage : IAsyncDisposable
{
    private readonly IBrowserContext context;
    private readonly List<string> troubles = [];

    internal SeenPage(IBrowserContext context, IPage page, Uri service)
    {
        this.context = context;
        Page = page;
        page.Console += (_, message) =>
        {
            if (message.Type is "error" or "warning")
            {
                troubles.Add($"console: {message.Text} ({message.Location})");
            }
        };
        page.PageError += (_, error) => troubles.Add($"script: {error}");
        page.Request += (_, request) =>
        {
            if (new Uri(request.Url).Authority != service.Authority)
            {
                troubles.Add($"asked elsewhere: {request.Url}");
            }
        };
    }

    public IPage Page { get; }

    /// <summary>Requests to elsewhere, and what the console told: anything that the policy of the pages forbids is among it.</summary>
    public IReadOnlyList<string> Troubles => troubles;

    public async Task OpenAsync(string path)
    {
        var answer = await Page.GotoAsync("/" + path);
        Assert.Equal(200, answer!.Status);
    }

    /// <summary>What of the page the rules of axe find wanting.</summary>
    public async Task<IReadOnlyList<string>> BarriersAsync()
    {
        var result = await Page.RunAxe();
        Assert.NotEmpty(result.Passes);
        return
        [
            .. result.Violations.SelectMany(rule =>
                rule.Nodes.Select(node => $"{rule.Id}: {rule.Help}: {node.Html}")
            ),
        ];
    }

    /// <summary>What of the page is cut, or scrolls sideways by itself.</summary>
    public async Task<IReadOnlyList<string>> CutAsync() =>
        await Page.EvaluateAsync<string[]>(
            """
            [...document.querySelectorAll('main *')]
              .filter(one => one.scrollWidth > one.clientWidth + 1 && one.clientWidth > 1
                && getComputedStyle(one).overflowX !== 'visible' && !one.matches('textarea, input, select, .lane span'))
              .map(one => one.outerHTML.slice(0, 120))
            """
        );

    public async ValueTask DisposeAsync() => await context.CloseAsync();
}
