using ServiceRules.Application.Accounts;

namespace ServiceRules.Application.Notices;

/// <summary>Notices, and the acts that tell of those that were given up. Safe to share between threads.</summary>
public interface INoticeStore : INoticeTable
{
    /// <summary>Keeps what came of an attempt, and the act that tells of it.</summary>
    void Tried(Notice notice, AccountAct act);

    /// <summary>Has one that was given up tried from the first attempt on, and keeps the act that tells of it.</summary>
    /// <returns>Whether it was given up; else nothing is changed.</returns>
    bool TryAnew(long entry, string recipient, AccountAct act);
}
