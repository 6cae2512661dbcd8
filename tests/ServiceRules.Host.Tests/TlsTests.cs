using System.Net;
using System.Security.Authentication;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace ServiceRules.Host.Tests;

/// <summary>The service with a certificate of its own: who may reach it, under which names, and what it refuses to start with.</summary>
public sealed class TlsTests : IDisposable
{
    private const string Name = "shop.example";
    private readonly string folder = Directory.CreateTempSubdirectory("servicerules-tls-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private TlsFiles Files(
        string? name = Name,
        DateTimeOffset? until = null,
        string use = "1.3.6.1.5.5.7.3.1",
        bool ownKey = true
    )
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        using var other = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var request = new CertificateRequest("CN=service", key, HashAlgorithmName.SHA256);
        request.CertificateExtensions.Add(new X509EnhancedKeyUsageExtension([new Oid(use)], false));
        if (name is not null)
        {
            var names = new SubjectAlternativeNameBuilder();
            names.AddDnsName(name);
            request.CertificateExtensions.Add(names.Build());
        }

        var end = until ?? DateTimeOffset.UtcNow.AddDays(60);
        using var certificate = request.CreateSelfSigned(end.AddDays(-90), end);
        var files = new TlsFiles(Path.Combine(folder, "cert.pem"), Path.Combine(folder, "key.pem"));
        File.WriteAllText(files.Certificate, certificate.ExportCertificatePem());
        File.WriteAllText(files.Key, (ownKey ? key : other).ExportPkcs8PrivateKeyPem());
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(files.Key, UnixFileMode.UserRead | UnixFileMode.UserWrite);
        }

        return files;
    }

    private static Task<ServiceRun> StartAsync(TlsFiles files, IPAddress? address = null) =>
        ServiceRun.StartAsync(change: settings =>
            settings with
            {
                Tls = files,
                Address = address ?? IPAddress.Loopback,
            }
        );

    private static HttpClient Client(Action<SocketsHttpHandler>? change = null)
    {
#pragma warning disable CA2000, CA5359 // The client disposes of it; which certificate it is, the tests here know.
        var handler = new SocketsHttpHandler
        {
            SslOptions = { RemoteCertificateValidationCallback = (_, _, _, _) => true },
        };
        change?.Invoke(handler);
        return new HttpClient(handler);
#pragma warning restore CA2000, CA5359
    }

    private static async Task<HttpResponseMessage> AskAsync(HttpClient client, ServiceRun run, string name)
    {
        var address = new Uri($"https://127.0.0.1:{run.Service.Address.Port}/health/live");
        using var request = new HttpRequestMessage(HttpMethod.Get, address);
        request.Headers.Host = name;
        return await client.SendAsync(request);
    }

    [Fact]
    public async Task Service_WithACertificate_AnswersToItsNamesAndToNoOther()
    {
        await using var run = await StartAsync(Files(), IPAddress.Any);
        using var client = Client();

        using var own = await AskAsync(client, run, Name);
        using var other = await AskAsync(client, run, "other.example");

        Assert.Equal(HttpStatusCode.OK, own.StatusCode);
        Assert.Equal("max-age=31536000", own.Headers.GetValues("Strict-Transport-Security").Single());
        Assert.Equal(HttpStatusCode.BadRequest, other.StatusCode);
    }

    [Fact]
    public async Task Service_WithACertificate_IsNotReachedInTheClear()
    {
        await using var run = await StartAsync(Files());
        using var client = Client();

        await Assert.ThrowsAnyAsync<HttpRequestException>(() =>
            client.GetAsync(new Uri($"http://127.0.0.1:{run.Service.Address.Port}/health/live"))
        );
    }

    [Fact]
    public async Task Service_AskedInAnOldTls_DoesNotAnswer()
    {
        await using var run = await StartAsync(Files());
#pragma warning disable CA5397, CA5398, SYSLIB0039 // That this is refused is what is tried.
        using var client = Client(handler => handler.SslOptions.EnabledSslProtocols = SslProtocols.Tls11);
#pragma warning restore CA5397, CA5398, SYSLIB0039

        await Assert.ThrowsAnyAsync<HttpRequestException>(() => AskAsync(client, run, Name));
    }

    [Fact]
    public async Task Certificate_ThatEndsSoon_IsTold()
    {
        await using var run = await StartAsync(Files(until: DateTimeOffset.UtcNow.AddDays(3)));

        Assert.Contains(run.Service.Remarks, one => one.Contains("ends on", StringComparison.Ordinal));
    }

    private async Task RefusedAsync(TlsFiles files, string why)
    {
        var refused = await Assert.ThrowsAsync<StartRefusedException>(() => StartAsync(files));
        Assert.Contains(why, string.Join('\n', refused.Lines), StringComparison.Ordinal);
    }

    [Fact]
    public Task Certificate_ThatHasEnded_IsRefused() =>
        RefusedAsync(Files(until: DateTimeOffset.UtcNow.AddDays(-1)), "not today");

    [Fact]
    public Task Certificate_WithoutAName_IsRefused() => RefusedAsync(Files(name: null), "names no host");

    [Fact]
    public Task Certificate_ForClients_IsRefused() =>
        RefusedAsync(Files(use: "1.3.6.1.5.5.7.3.2"), "not for servers");

    [Fact]
    public Task Key_OfAnother_IsRefused() => RefusedAsync(Files(ownKey: false), "cannot be used together");

    [Fact]
    public Task Files_ThatAreNotThere_AreRefused() =>
        RefusedAsync(
            new TlsFiles(Path.Combine(folder, "none.pem"), Path.Combine(folder, "none.key")),
            "none.pem"
        );

    [SkippableFact]
    public async Task Key_ThatOthersCanRead_IsRefused()
    {
        Skip.If(OperatingSystem.IsWindows(), "file modes are a Unix matter");
        var files = Files();
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(
                files.Key,
                UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.OtherRead
            );
        }

        await RefusedAsync(files, "read by others");
    }
}
