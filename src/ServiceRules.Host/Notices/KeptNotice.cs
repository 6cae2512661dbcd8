using ServiceRules.Application.Notices;

namespace ServiceRules.Host.Notices;

/// <summary>How a notice stands. What its entry tells is asked for by those who may see records.</summary>
/// <param name="Id">As the notice says it, at each attempt.</param>
/// <param name="Entry">Place of the assessment in the log; left out: it is of something that falls due.</param>
/// <param name="Recipient">Name of the recipient in the settings.</param>
/// <param name="State">One of <see cref="NoticeWords"/>.</param>
/// <param name="DueAt">When it fell due.</param>
/// <param name="Attempts">How often it was tried, since it was tried anew if it was.</param>
/// <param name="Failure">What came of the last attempt that failed.</param>
public sealed record KeptNotice(
    string Id,
    long? Entry,
    string Recipient,
    string State,
    DateTimeOffset DueAt,
    int Attempts,
    string? Failure
)
{
    internal static KeptNotice Of(Notice notice, string log) =>
        new(
            NoticeId.Of(log, notice.Entry, notice.Recipient),
            notice.Due is null ? notice.Entry : null,
            notice.Recipient,
            NoticeWords.Of(notice.State),
            notice.At,
            notice.Attempts,
            notice.Failure
        );
}
