using System.Collections.Immutable;
using ServiceRules.Application.Accounts;

namespace ServiceRules.Application.Notices;

/// <summary>Where notices are kept: in the database of the log, put there with the filing. Safe to share between threads.</summary>
public interface INoticeStore
{
    /// <summary>
    /// Those that wait, of assessments from a place in the log on and all that are tried anew, in the order of the log.
    /// </summary>
    ImmutableArray<Notice> Waiting(long from);

    /// <summary>Those in a state, the newest first, and after one of them.</summary>
    ImmutableArray<Notice> In(NoticeState state, Notice? after, int most);

    Notice? Find(long entry, string recipient);

    NoticeCount Count();

    /// <summary>Keeps what came of an attempt, and the act that tells of it.</summary>
    void Tried(Notice notice, AccountAct? act = null);

    /// <summary>Has one that was given up tried from the first attempt on, and keeps the act that tells of it.</summary>
    /// <returns>Whether it was given up; else nothing is changed.</returns>
    bool TryAnew(long entry, string recipient, AccountAct act);
}
