using System.Collections.Immutable;
using ServiceRules.Application.Accounts;

namespace ServiceRules.Application.Notices;

/// <summary>Where notices are kept: in the database of the log, put there with the filing. Safe to share between threads.</summary>
public interface INoticeStore
{
    /// <summary>Those that wait, of assessments from a place in the log on, in the order of the log.</summary>
    ImmutableArray<Notice> Waiting(long from);

    Notice? Find(long entry, string recipient);

    NoticeCount Count();

    /// <summary>Keeps what came of an attempt, and the act that tells of it.</summary>
    void Tried(Notice notice, AccountAct? act = null);
}
