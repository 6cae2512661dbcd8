using System.Net;
using System.Text.RegularExpressions;

namespace ServiceRules.Host.Tests.Accounts;

/// <summary>Keeps cookies and sends forms as a browser does, with the token of the page that they stand on.</summary>
internal sealed partial class Browser : IDisposable
{
    private readonly SocketsHttpHandler _handler;
    private readonly HttpClient _client;

    /// <param name="run">Whom it asks.</param>
    /// <param name="cookies">Those of another, shared with it; null: its own.</param>
    public Browser(ServiceRun run, CookieContainer? cookies = null)
    {
        Cookies = cookies ?? new CookieContainer();
        _handler = new SocketsHttpHandler { AllowAutoRedirect = false, CookieContainer = Cookies };
        _client = new HttpClient(_handler) { BaseAddress = run.Service.Address };
    }

    public CookieContainer Cookies { get; }

    /// <summary>Says from now on that it takes pages, as browsers do.</summary>
    public void AcceptPages() => _client.DefaultRequestHeaders.Accept.ParseAdd("text/html");

    public void Dispose()
    {
        _client.Dispose();
        _handler.Dispose();
    }

    public Task<HttpResponseMessage> GetAsync(string path) =>
        _client.GetAsync(new Uri(path, UriKind.Relative));

    /// <summary>Opens a page and sends a form of it.</summary>
    public async Task<HttpResponseMessage> SendAsync(
        string page,
        string action,
        params (string Name, string Value)[] fields
    )
    {
        var token = await TokenAsync(page);
        return await SendBareAsync(action, [("__RequestVerificationToken", token), .. fields]);
    }

    /// <summary>The token of the forms of a page.</summary>
    public async Task<string> TokenAsync(string page)
    {
        using var shown = await GetAsync(page);
        return Token().Match(await shown.Content.ReadAsStringAsync()).Groups[1].Value;
    }

    /// <summary>Sends a form that stands on no page.</summary>
    public async Task<HttpResponseMessage> SendBareAsync(
        string action,
        params (string Name, string Value)[] fields
    )
    {
        using var form = new FormUrlEncodedContent(
            fields.Select(field => KeyValuePair.Create(field.Name, field.Value))
        );
        return await _client.PostAsync(new Uri(action, UriKind.Relative), form);
    }

    public async Task<int> SignInAsync(string name, string password)
    {
        using var answer = await SendAsync(
            "sign-in",
            "sign-in",
            ("name", name),
            ("password", password),
            ("then", "/records")
        );
        return (int)answer.StatusCode;
    }

    public async Task<int> StatusAsync(string path)
    {
        using var answer = await GetAsync(path);
        return (int)answer.StatusCode;
    }

    [GeneratedRegex("name=\"__RequestVerificationToken\" value=\"([^\"]+)\"")]
    private static partial Regex Token();
}
