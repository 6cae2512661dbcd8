using System.Collections.Immutable;
using ServiceRules.Application.Accounts;
using ServiceRules.Application.Ledger;

namespace ServiceRules.Application.Notices;

/// <summary>Notices of which it stands in the log that one was given up.</summary>
/// <param name="ledger">The log.</param>
/// <param name="beside">Its database.</param>
public sealed class LoggedNotices(OpenLedger ledger, INoticeTable beside) : INoticeStore
{
    public ImmutableArray<Notice> Waiting(long from) => beside.Waiting(from);

    public ImmutableArray<Notice> In(
        NoticeState state,
        Notice? after,
        int most,
        ImmutableArray<string>? among = null
    ) => beside.In(state, after, most, among);

    public Notice? Find(long entry, string recipient) => beside.Find(entry, recipient);

    public NoticeCount Count() => beside.Count();

    public void Tried(Notice notice) => beside.Tried(notice);

    public void Tried(Notice notice, AccountAct act) => _ = Told(log => log.Rows.Settle(notice), act);

    public bool TryAnew(long entry, string recipient, AccountAct act) =>
        Told(log => log.Rows.Renew(entry, recipient), act);

    // Of two that were at it, the first tells.
    private bool Told(Func<ILedgerWriting, bool> change, AccountAct act) =>
        new LoggedActs(ledger).Write(
            (log, note) =>
            {
                var isChanged = change(log);
                if (isChanged)
                {
                    note(act);
                }

                return isChanged;
            }
        );
}
