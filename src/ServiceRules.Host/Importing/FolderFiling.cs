using ServiceRules.Application.Library;
using ServiceRules.Application.Notices;
using ServiceRules.Application.Packs;
using ServiceRules.Application.Submitting;
using ServiceRules.Application.Waiving;
using ServiceRules.Host.Notices;
using ServiceRules.Host.Packs;
using ServiceRules.Host.Setup;

namespace ServiceRules.Host.Importing;

/// <summary>
/// The way into the store of the service for whoever has its folder at hand: the same as over HTTP, whether the service runs
/// on it at the time or not.
/// </summary>
public sealed class FolderFiling : IAsyncDisposable
{
    private readonly ServiceFolder folder;
    private readonly GroupFiling filing;
    private readonly SubmittingNow submitting;

    private readonly string? site;

    private FolderFiling(
        ServiceFolder folder,
        IReadOnlyList<string> told,
        SiteRegisters registers,
        NoticeRecipients recipients,
        string? site
    )
    {
        this.folder = folder;
        this.site = site;
        Remarks = [.. folder.Remarks, .. told];
        filing = new GroupFiling(folder.Ledger);
        submitting = new SubmittingNow(
            new ActiveRules(folder.Rules, new SiteWaivers(folder.Waivers, registers)),
            folder.Ledger,
            filing,
            recipients,
            site
        );
    }

    /// <summary>What a person should know of ledger and rules, though it stops nothing.</summary>
    public IReadOnlyList<string> Remarks { get; }

    /// <param name="dataFolder">The private folder of the service; made where there is none.</param>
    /// <param name="rules">The registers of the site; and the rules, where none are in force in that folder. They are sound.</param>
    /// <param name="clock">The clock.</param>
    /// <exception cref="StartRefusedException">The folder cannot be used.</exception>
    public static FolderFiling Open(string dataFolder, LoadedRules rules, TimeProvider clock)
    {
        ArgumentNullException.ThrowIfNull(rules);
        // The service finds what is owed, at its next look or its next start.
        var recipients = NoticeSettings.Read(dataFolder)?.Recipients ?? NoticeRecipients.None;
        var folder = ServiceFolder.Open(dataFolder, clock);
        try
        {
            var sites = folder.Accounts.Sites();
            var name = rules.Site!.Name;
            return sites.IsEmpty || sites.Contains(name)
                ? new(
                    folder,
                    RulesStart.Begin(folder, rules, rules.Site, false, clock),
                    rules.Site,
                    recipients,
                    sites.IsEmpty ? null : name
                )
                : throw new StartRefusedException(
                    $"the service of `{dataFolder}` has no site `{name}`; accepted: the folder of one that it was started with"
                );
        }
        catch
        {
            folder.Dispose();
            throw;
        }
    }

    /// <summary>Judges and files a record.</summary>
    public Task<SubmissionOutcome> SubmitAsync(Submission submission, CancellationToken stop = default) =>
        submitting.SubmitAsync(submission with { Site = site }, stop);

    public async ValueTask DisposeAsync()
    {
        await filing.DisposeAsync();
        folder.Dispose();
    }
}
