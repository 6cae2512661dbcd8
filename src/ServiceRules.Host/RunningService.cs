using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using ServiceRules.Application.Demo;
using ServiceRules.Application.Filed;
using ServiceRules.Application.Packs;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Demo;
using ServiceRules.Host.Notices;
using ServiceRules.Host.Packs;
using ServiceRules.Host.Providers;
using ServiceRules.Host.Setup;
using ServiceRules.Host.Sites;
using ServiceRules.Storage.Inbox;

namespace ServiceRules.Host;

/// <summary>The service, listening.</summary>
public sealed class RunningService : IAsyncDisposable
{
    private readonly WebApplication app;
    private readonly ServiceFolder folder;
    private readonly InboxFolder? inbox;
    private readonly ServiceCertificate? certificate;
    private readonly IReadOnlyList<string> rulesTold;

    private RunningService(
        WebApplication app,
        ServiceFolder folder,
        InboxFolder? inbox,
        ServiceCertificate? certificate,
        WaysIn waysIn,
        IReadOnlyList<string> rulesTold
    )
    {
        this.rulesTold = rulesTold;
        this.certificate = certificate;
        WaysIn = waysIn;
        this.app = app;
        this.folder = folder;
        this.inbox = inbox;
        var addresses = app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!;
        Addresses = [.. addresses.Addresses.Select(address => new Uri(address + "/"))];
    }

    /// <summary>Where it listens.</summary>
    public Uri Address => Addresses[0];

    /// <summary>Where people and programs ask it: through the proxy, where there is one.</summary>
    public Uri Asked => app.Services.GetRequiredService<ServiceSettings>().Proxy?.Public ?? Address;

    /// <summary>Everywhere it listens.</summary>
    internal IReadOnlyList<Uri> Addresses { get; }

    /// <summary>What a person should know of its ledger, though it stops nothing.</summary>
    public IReadOnlyList<string> Remarks =>
        [
            .. folder.Remarks,
            .. rulesTold,
            .. certificate?.Remark(app.Services.GetRequiredService<TimeProvider>().GetUtcNow()) is { } remark
                ? new[] { remark }
                : [],
        ];

    /// <summary>What whoever started it needs to come in: told this once, and kept nowhere.</summary>
    public WaysIn WaysIn { get; }

    /// <summary>What the rules made of the demo, once all of it is filed; null: this is none.</summary>
    public Task<DemoSummary>? DemoFiled => app.Services.GetService<DemoProgress>()?.Summary;

    /// <summary>What this service is made of.</summary>
    internal IServiceProvider Services => app.Services;

    /// <summary>Starts it, and returns once it listens.</summary>
    /// <exception cref="StartRefusedException">It may not, or cannot.</exception>
    public static async Task<RunningService> StartAsync(ServiceSettings settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        Listening.Check(settings.Address, settings.Tls);
        var certificate = settings.Tls is { } tls
            ? ServiceCertificate.Open(tls, settings.Clock.GetUtcNow())
            : null;
        ServiceFolder? folder = null;
        InboxFolder? inbox = null;
        WebApplication? app = null;
        try
        {
            folder = ServiceFolder.Open(settings.DataFolder, settings.Clock);
            SitesMaking.Settle(settings, folder);
            var told = RulesStart.Begin(
                folder,
                settings.Rules,
                SitesMaking.HomeOf(settings).Site!,
                settings.ActivatesRules,
                settings.Clock
            );
            TryPack.Clear(folder.Scratch);
            inbox = InboxPlace.Open(settings);
            var notices = NoticeSettings.Read(settings.DataFolder);
            if (notices is not null && settings.Proxy is { } proxy)
            {
                notices = notices with { Service = proxy.Public };
            }

            app = Composition.Of(
                settings,
                folder,
                inbox,
                certificate,
                notices,
                ProviderSettings.Read(settings.DataFolder)
            );
            var waysIn = await WaysInMaking.MakeAsync(app.Services, settings.IsDemo);
            await app.StartAsync();
            return new RunningService(app, folder, inbox, certificate, waysIn, told);
        }
        catch (IOException taken) when (app is not null && !DiskFull.Is(taken))
        {
            await EndAsync();
            throw new StartRefusedException(
                $"the service cannot listen on {Listening.Told(settings)}: {taken.Message}",
                "accepted: --port and one that is free"
            );
        }
        catch
        {
            await EndAsync();
            throw;
        }

        async Task EndAsync()
        {
            if (app is not null)
            {
                // What began before the part that failed goes on until it is told to stop, on what is closed below.
                await app.StopAsync();
                await app.DisposeAsync();
            }

            inbox?.Dispose();
            folder?.Dispose();
            certificate?.Dispose();
        }
    }

    /// <summary>Returns once it was told to stop, and every request under way has ended.</summary>
    public Task EndedAsync() => app.WaitForShutdownAsync();

    public async ValueTask DisposeAsync()
    {
        await app.StopAsync();
        await app.DisposeAsync();
        inbox?.Dispose();
        folder.Dispose();
        certificate?.Dispose();
    }
}
