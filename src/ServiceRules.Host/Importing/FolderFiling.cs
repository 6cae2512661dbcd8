using ServiceRules.Application.Assessing;
using ServiceRules.Application.Library;
using ServiceRules.Application.Notices;
using ServiceRules.Application.Submitting;
using ServiceRules.Host.Notices;
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
    private readonly SubmitRecord submitting;

    private FolderFiling(ServiceFolder folder, AssessRecord judging, NoticeRecipients recipients)
    {
        this.folder = folder;
        filing = new GroupFiling(folder.Ledger);
        submitting = new SubmitRecord(judging, folder.Ledger, filing, recipients);
    }

    /// <summary>What a person should know of the ledger, though it stops nothing.</summary>
    public IReadOnlyList<string> Remarks => folder.Remarks;

    /// <param name="dataFolder">The private folder of the service; made where there is none.</param>
    /// <param name="rules">The rules to judge by. They are sound.</param>
    /// <param name="clock">The clock.</param>
    /// <exception cref="StartRefusedException">The folder cannot be used.</exception>
    public static FolderFiling Open(string dataFolder, LoadedRules rules, TimeProvider clock)
    {
        ArgumentNullException.ThrowIfNull(rules);
        // The service finds what is owed, at its next look or its next start.
        var recipients = NoticeSettings.Read(dataFolder)?.Recipients ?? NoticeRecipients.None;
        return new(
            ServiceFolder.Open(dataFolder, clock),
            new AssessRecord(rules.Book, rules.Site!),
            recipients
        );
    }

    /// <summary>Judges and files a record.</summary>
    public Task<SubmissionOutcome> SubmitAsync(Submission submission, CancellationToken stop = default) =>
        submitting.SubmitAsync(submission, stop);

    public async ValueTask DisposeAsync()
    {
        await filing.DisposeAsync();
        folder.Dispose();
    }
}
