using System.Collections.Immutable;

namespace ServiceRules.Application.Notices;

/// <summary>Where notices are kept: in the database of the log, put there with the filing. Safe to share between threads.</summary>
public interface INoticeTable
{
    /// <summary>
    /// Those that wait, of assessments from a place in the log on and all that are tried anew, in the order of the log.
    /// </summary>
    ImmutableArray<Notice> Waiting(long from);

    /// <summary>Those in a state, the newest first, and after one of them.</summary>
    ImmutableArray<Notice> In(NoticeState state, Notice? after, int most);

    Notice? Find(long entry, string recipient);

    NoticeCount Count();

    /// <summary>Keeps what came of an attempt.</summary>
    void Tried(Notice notice);
}
