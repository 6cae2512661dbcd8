using System.Collections.Immutable;
using ServiceRules.Application.Comparing;
using ServiceRules.Application.Library;
using ServiceRules.Application.Packs;
using ServiceRules.Host.Setup;
using ServiceRules.Host.Sites;
using ServiceRules.Rules.Model;

namespace ServiceRules.Host.Packs;

/// <summary>Where packs and sheets are tried and compared: one after the other, since that keeps a processor busy.</summary>
internal sealed class PackDesk(ActiveRules active, ServiceFolder folder, ServiceSettings settings)
    : IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(10);

    private readonly SemaphoreSlim turn = new(1, 1);

    /// <summary>What judges now.</summary>
    public JudgingRules InForce => active.Now();

    /// <summary>Tries what was sent; null where others are at it and it did not come to its turn.</summary>
    /// <param name="sent">The files.</param>
    /// <param name="sites">The sites whose registers they are held against.</param>
    /// <param name="rule">Identity of the only rule of which cases are run; null: all.</param>
    /// <param name="isChecked">Whether packs and sheets of a digest need not be tried again.</param>
    /// <param name="stop">Whether nobody waits any more.</param>
    /// <exception cref="OperationCanceledException">It took too long.</exception>
    public Task<PackTried?> TryAsync(
        ImmutableArray<PackFile> sent,
        IEnumerable<ServedSite> sites,
        string? rule,
        Func<string, bool> isChecked,
        CancellationToken stop
    ) =>
        InTurnAsync(
            ending =>
                TryPack.Run(
                    sent,
                    [.. sites.Select(site => site.Folder)],
                    folder.Scratch,
                    rule,
                    isChecked,
                    ending
                ),
            stop
        );

    /// <summary>Compares what is in force with others on stored records; null likewise.</summary>
    /// <exception cref="OperationCanceledException">It took too long.</exception>
    public Task<StoredCompared?> CompareAsync(
        RuleBook others,
        SiteRegisters site,
        bool isOfSeveral,
        int newest,
        CancellationToken stop
    ) =>
        InTurnAsync(
            ending =>
            {
                var comparing = new CompareStored(InForce.Book, others, site, isOfSeveral);
                return folder.Ledger.Read((log, rows) => comparing.Compare(log, rows, newest, ending));
            },
            stop
        );

    public void Dispose() => turn.Dispose();

    private async Task<T?> InTurnAsync<T>(Func<CancellationToken, T> work, CancellationToken stop)
        where T : class
    {
        if (!await turn.WaitAsync(Patience, stop))
        {
            return null;
        }

        try
        {
            using var ending = CancellationTokenSource.CreateLinkedTokenSource(stop);
            ending.CancelAfter(settings.Limits.PackTime);
            return await Task.Run(() => work(ending.Token), ending.Token);
        }
        finally
        {
            turn.Release();
        }
    }
}
