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

    public Notice? Find(long entry, string recipient) => beside.Find(entry, recipient);

    public NoticeCount Count() => beside.Count();

    public void Tried(Notice notice) => beside.Tried(notice);

    public void Tried(Notice notice, AccountAct act) =>
        _ = new LoggedActs(ledger).Write(
            (log, note) =>
            {
                var isSettled = log.Rows.Settle(notice);
                if (isSettled)
                {
                    note(act);
                }

                return isSettled;
            }
        );
}
