using ServiceRules.Application.Ledger;
using ServiceRules.Application.Notices;
using ServiceRules.Application.Rows;
using ServiceRules.Application.Submitting;

namespace ServiceRules.Storage.Tests.Submitting;

/// <summary>One instance of a service that takes submissions for a ledger.</summary>
internal sealed class Counter : IAsyncDisposable
{
    private readonly LedgerFolder _folder;
    private readonly SubmitRecord _submit;

    /// <param name="drawer">Where the ledger is.</param>
    /// <param name="recipients">Who is told.</param>
    /// <param name="site">The site, where there are several; null: there is one.</param>
    public Counter(Drawer drawer, NoticeRecipients? recipients = null, string? site = null)
    {
        _folder = drawer.Open();
        Ledger = drawer.Opened(_folder);
        Filing = new GroupFiling(Ledger);
        _submit = new SubmitRecord(
            site is null ? Jobs.Judging : Jobs.JudgingAt(site),
            Ledger,
            Filing,
            recipients,
            site is not null
        );
    }

    public OpenLedger Ledger { get; }

    public GroupFiling Filing { get; }

    public INoticeStore Notices => new LoggedNotices(Ledger, _folder.Notices);

    public LedgerFolder Folder => _folder;

    public ILedgerStore Store => _folder.Store;

    public IRowReading Rows => Ledger.Rows;

    public Task<SubmissionOutcome> SubmitAsync(
        byte[] body,
        string? key = null,
        Correction? correction = null,
        string? by = null,
        KnownSender? sender = null
    ) =>
        _submit.SubmitAsync(
            new Submission(body)
            {
                Key = key is null ? null : new SubmissionKey("alder", key),
                Correction = correction,
                By = by,
                Sender = sender,
            }
        );

    /// <summary>Everything that is asked of the rows, in pages of a size.</summary>
    public (List<RecordRow> Records, List<UnitRow> Units, List<FindingRow> Findings) All(
        int page = 50,
        bool oldestFirst = false
    ) =>
        (
            Pages(page, oldestFirst, paging => Rows.Records(new RecordFilter { AllVersions = true }, paging)),
            Pages(
                page,
                oldestFirst,
                paging => Rows.Units(new UnitFilter { Of = new() { AllVersions = true } }, paging)
            ),
            Pages(
                page,
                oldestFirst,
                paging => Rows.Findings(new FindingFilter { Of = new() { AllVersions = true } }, paging)
            )
        );

    private static List<T> Pages<T>(int page, bool oldestFirst, Func<RowPaging, RowPage<T>> ask)
    {
        var all = new List<T>();
        var paging = new RowPaging { Most = page, OldestFirst = oldestFirst };
        while (true)
        {
            var answer = ask(paging);
            all.AddRange(answer.Rows);
            if (answer.Next is not { } next)
            {
                return all;
            }

            Assert.Equal(page, answer.Rows.Length);
            Assert.True(RowPlace.TryParse(next.ToString(), out var again));
            paging = paging with { Beyond = again };
        }
    }

    public async ValueTask DisposeAsync()
    {
        await Filing.DisposeAsync();
        _folder.Dispose();
    }
}
