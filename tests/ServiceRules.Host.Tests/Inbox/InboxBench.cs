using System.Text;
using System.Text.Json;
using Microsoft.AspNetCore.Http.Json;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging.Abstractions;
using Microsoft.Extensions.Options;
using ServiceRules.Application.Notices;
using ServiceRules.Application.Packs;
using ServiceRules.Application.Submitting;
using ServiceRules.Application.Waiving;
using ServiceRules.Formats.Imports;
using ServiceRules.Host.Filing;
using ServiceRules.Host.Inbox;
using ServiceRules.Host.Notices;
using ServiceRules.Host.Packs;
using ServiceRules.Host.Problems;
using ServiceRules.Host.Setup;
using ServiceRules.Host.Watching;
using ServiceRules.Storage.Inbox;

namespace ServiceRules.Host.Tests.Inbox;

/// <summary>An inbox and a store, looked into by hand: no test waits for a clock.</summary>
internal sealed class InboxBench : IAsyncDisposable
{
    private readonly ServiceFolder service;
    private readonly GroupFiling filing;
    private readonly InboxFolder inbox;
    private readonly ServiceProvider provider;
    private readonly ServiceMeter meter;
    private readonly string place;
    private readonly bool ownsPlace;

    public InboxBench(string? place = null, ImportMapping? mapping = null)
    {
        ownsPlace = place is null;
        this.place = place ?? Directory.CreateTempSubdirectory("servicerules-inbox-").FullName;
        var rules = ServiceRun.Rules;
        service = ServiceFolder.Open(Path.Combine(this.place, "data"), Clock);
        _ = RulesStart.Begin(service, rules, rules.Site!, false, Clock);
        filing = new GroupFiling(service.Ledger);
        inbox = InboxFolder.Open(Folder);
        // Answers are spelled as over HTTP.
        provider = new ServiceCollection().AddLogging().AddMetrics().AddProblems().BuildServiceProvider();
        meter = ActivatorUtilities.CreateInstance<ServiceMeter>(provider);
        var json = provider.GetRequiredService<IOptions<JsonOptions>>();
        Desk = new FilingDesk(
            service.Ledger,
            new SubmittingNow(
                new ActiveRules(service.Rules, new SiteWaivers(service.Waivers, rules.Site!)),
                service.Ledger,
                filing,
                NoticeRecipients.None
            ),
            new NoticeBell(),
            meter
        );
        Rounds = new InboxRounds(
            inbox,
            new InboxSettings { Folder = Folder, Mapping = mapping },
            new InboxDesk(Desk, Clock, json),
            Clock,
            NullLogger<InboxRounds>.Instance
        );
    }

    public HandClock Clock { get; } = new();

    public FilingDesk Desk { get; }

    public InboxRounds Rounds { get; }

    public string Folder => Path.Combine(place, "inbox");

    public long LogSize => service.Ledger.Head?.Size ?? 0;

    public string At(params string[] names) => Path.Combine([Folder, .. names]);

    public void Drop(string name, byte[] bytes) => File.WriteAllBytes(At(name), bytes);

    public void Drop(string name, string text) => Drop(name, Encoding.UTF8.GetBytes(text));

    /// <summary>Sees what is there, and again once it has settled.</summary>
    public async Task SettleAsync()
    {
        await Rounds.RunAsync(CancellationToken.None);
        Clock.Pass(TimeSpan.FromSeconds(2));
        await Rounds.RunAsync(CancellationToken.None);
    }

    public JsonElement Answer(params string[] names)
    {
        using var document = JsonDocument.Parse(File.ReadAllBytes(At(names) + InboxFolder.AnswerEnding));
        return document.RootElement.Clone();
    }

    /// <summary>Names in a folder of the inbox, answers left out.</summary>
    public IEnumerable<string> Names(string folder) =>
        Directory
            .EnumerateFileSystemEntries(At(folder))
            .Select(path => Path.GetFileName(path))
            .Where(name =>
                !name.EndsWith(InboxFolder.AnswerEnding, StringComparison.Ordinal) && name != ".lock"
            )
            .Order(StringComparer.Ordinal);

    public async ValueTask DisposeAsync()
    {
        await filing.DisposeAsync();
        inbox.Dispose();
        service.Dispose();
        meter.Dispose();
        await provider.DisposeAsync();
        if (ownsPlace)
        {
            Directory.Delete(place, recursive: true);
        }
    }
}
