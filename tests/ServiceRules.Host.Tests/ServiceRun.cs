using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json;
using ServiceRules.Application.Library;
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
        Client = new HttpClient { BaseAddress = service.Address, Timeout = TimeSpan.FromMinutes(2) };
    }

    public static LoadedRules Rules => Shipped.Value;

    public RunningService Service { get; }

    public string Folder { get; }

    public HttpClient Client { get; }

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
