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
    /// <param name="state">The state.</param>
    /// <param name="after">The last one before; null: from the newest on.</param>
    /// <param name="most">How many.</param>
    /// <param name="among">The sites whose notices may be told; null: those of every one.</param>
    ImmutableArray<Notice> In(
        NoticeState state,
        Notice? after,
        int most,
        ImmutableArray<string>? among = null
    );

    Notice? Find(long entry, string recipient);

    NoticeCount Count();

    /// <summary>Keeps what came of an attempt.</summary>
    void Tried(Notice notice);
}
