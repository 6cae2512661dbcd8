using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json;
using Microsoft.Extensions.DependencyInjection;
using ServiceRules.Application.Accounts;
using ServiceRules.Application.Library;
using ServiceRules.Client;
using ServiceRules.Host.Sites;
using ServiceRules.TestKit;

namespace ServiceRules.Host.Tests;

/// <summary>The service on a free port of this machine, with a data folder of its own.</summary>
public sealed class ServiceRun : IAsyncDisposable
{
    private static readonly Lazy<LoadedRules> Shipped = new(() =>
        RuleFolder.Load(ReferenceFiles.InRepository("rules"))
    );

    private readonly bool ownsFolder;
    private bool isDisposed;

    private ServiceRun(RunningService service, string folder, bool ownsFolder)
    {
        Service = service;
        Folder = folder;
        this.ownsFolder = ownsFolder;
        Key = KeyOf(folder);
        Client = new HttpClient { BaseAddress = service.Address, Timeout = TimeSpan.FromMinutes(2) };
        Client.DefaultRequestHeaders.Authorization = new("Bearer", Key);
    }

    public static LoadedRules Rules => Shipped.Value;

    public RunningService Service { get; }

    public string Folder { get; }

    /// <summary>Asks with a key of a shop lead who is administrator as well.</summary>
    public HttpClient Client { get; }

    /// <summary>The same, in types.</summary>
    public ServiceClient Typed => new(Client);

    /// <summary>That key.</summary>
    public string Key { get; }

    internal T Get<T>()
        where T : class => Service.Services.GetRequiredService<T>();

    internal string NewKey(Roles roles, string? person = null, int days = 1, string? site = null) =>
        Get<KeyMaking>().Make("test", roles, person, days, AccountAct.Machine, site).Secret;

    /// <summary>Asks as somebody else, follows nothing and keeps nothing.</summary>
    internal HttpClient ClientWith(string? key)
    {
#pragma warning disable CA2000 // The client disposes of it.
        var handler = new SocketsHttpHandler { AllowAutoRedirect = false, UseCookies = false };
#pragma warning restore CA2000
        var client = new HttpClient(handler) { BaseAddress = Service.Address };
        if (key is not null)
        {
            client.DefaultRequestHeaders.Authorization = new("Bearer", key);
        }

        return client;
    }

    public static ServiceSettings Settings(string folder) =>
        new()
        {
            DataFolder = Path.Combine(folder, "data"),
            Rules = Rules,
            Port = 0,
        };

    /// <param name="folder">An own folder to go on with; null: a new one, which goes with the run.</param>
    /// <param name="change">Other settings.</param>
    public static async Task<ServiceRun> StartAsync(
        string? folder = null,
        Func<ServiceSettings, ServiceSettings>? change = null
    )
    {
        var place = folder ?? Directory.CreateTempSubdirectory("servicerules-host-").FullName;
        var settings = Settings(place);
        return new ServiceRun(
            await RunningService.StartAsync(change?.Invoke(settings) ?? settings),
            place,
            folder is null
        );
    }

    public async Task<HttpResponseMessage> PostAsync(
        string path,
        byte[] body,
        Action<HttpRequestMessage>? change = null
    )
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, path)
        {
            Content = new ByteArrayContent(body),
        };
        request.Content.Headers.ContentType = new MediaTypeHeaderValue("application/json");
        change?.Invoke(request);
        return await Client.SendAsync(request);
    }

    public Task<HttpResponseMessage> GetAsync(string path) =>
        Client.GetAsync(new Uri(path, UriKind.Relative));

    public Task<string> TextAsync(string path) => Client.GetStringAsync(new Uri(path, UriKind.Relative));

    public Task<byte[]> BytesAsync(string path) => Client.GetByteArrayAsync(new Uri(path, UriKind.Relative));

    public async Task<JsonElement> GetJsonAsync(string path)
    {
        using var answer = await GetAsync(path);
        return answer.StatusCode is HttpStatusCode.OK or HttpStatusCode.ServiceUnavailable
            ? await JsonAsync(answer)
            : throw new HttpRequestException($"{path}: {(int)answer.StatusCode}");
    }

    public static async Task<JsonElement> JsonAsync(HttpResponseMessage answer)
    {
        using var document = JsonDocument.Parse(await answer.Content.ReadAsByteArrayAsync());
        return document.RootElement.Clone();
    }

    public static byte[] Record(string name, params (string From, string To)[] changes) =>
        Encoding.UTF8.GetBytes(
            changes.Aggregate(
                File.ReadAllText(
                    ReferenceFiles.InRepository("rules", "base", "fixtures", name + ".record.json")
                ),
                (text, change) =>
                    text.Contains(change.From, StringComparison.Ordinal)
                        ? text.Replace(change.From, change.To, StringComparison.Ordinal)
                        : throw new ArgumentException($"`{change.From}` does not stand in {name}")
            )
        );

    // The same at each start on one folder: a sender stays who it was.
    private string KeyOf(string folder)
    {
        var kept = Path.Combine(folder, "test.key");
        if (!File.Exists(kept))
        {
            var site = Get<ServedSites>().AreSeveral ? GrantedSite.Every : null;
            File.WriteAllText(kept, NewKey(Roles.Lead | Roles.Administrator, site: site));
        }

        return File.ReadAllText(kept);
    }

    public async ValueTask DisposeAsync()
    {
        if (isDisposed)
        {
            return;
        }

        isDisposed = true;
        Client.Dispose();
        await Service.DisposeAsync();
        if (ownsFolder)
        {
            Directory.Delete(Folder, recursive: true);
        }
    }
}
