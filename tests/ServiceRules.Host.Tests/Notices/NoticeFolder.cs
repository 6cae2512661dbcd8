using System.Text;
using Microsoft.Extensions.DependencyInjection;
using ServiceRules.Application.Accounts;
using ServiceRules.Application.Filed;

namespace ServiceRules.Host.Tests.Notices;

/// <summary>A data folder with settings of notices, gone with the test.</summary>
internal sealed class NoticeFolder : IDisposable
{
    private readonly string _place = Directory.CreateTempSubdirectory("servicerules-notices-").FullName;

    /// <param name="members">Members of the settings beside format and service.</param>
    public NoticeFolder(string members)
        : this(
            $$"""{ "format": "service-notices/1", "service": "https://service.example", {{members}} }""",
            DurableFile.Private
        ) { }

    public NoticeFolder(string text, UnixFileMode mode)
    {
        Assert.Null(PrivateFolder.Make(Path.Combine(_place, "data")));
        Assert.True(
            DurableFile.WriteNew(
                Path.Combine(_place, "data", "notices.json"),
                Encoding.UTF8.GetBytes(text),
                mode
            )
        );
    }

    public string Ledger => Path.Combine(_place, "data", "ledger");

    public string Place => _place;

    public Task<ServiceRun> StartAsync(
        int pauses = 0,
        TimeSpan? pause = null,
        TimeProvider? clock = null,
        Func<ServiceSettings, ServiceSettings>? change = null
    ) =>
        ServiceRun.StartAsync(
            _place,
            settings =>
            {
                var paused = settings with
                {
                    Clock = clock ?? settings.Clock,
                    NoticePauses = [.. Enumerable.Repeat(pause ?? TimeSpan.FromMilliseconds(50), pauses)],
                };
                return change?.Invoke(paused) ?? paused;
            }
        );

    public void Dispose() => Directory.Delete(_place, recursive: true);
}

internal static class ServiceParts
{
    public static IAccountStore GetAccounts(this IServiceProvider services) =>
        services.GetRequiredService<IAccountStore>();
}
