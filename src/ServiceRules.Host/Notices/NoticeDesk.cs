using System.Collections.Immutable;
using ServiceRules.Application.Accounts;
using ServiceRules.Application.Notices;

namespace ServiceRules.Host.Notices;

/// <summary>How notices stand, and what was given up tried anew.</summary>
/// <param name="store">Where they are kept.</param>
/// <param name="log">Name of the log that they tell of.</param>
/// <param name="clock">When acts happen.</param>
internal sealed class NoticeDesk(INoticeStore store, string log, TimeProvider clock)
{
    /// <summary>Those in a state, the newest first.</summary>
    /// <param name="after">The last one of the page before; null: from the newest on.</param>
    /// <param name="among">The sites whose notices whoever asks may see; null: those of every one.</param>
    public (ImmutableArray<KeptNotice> Items, string? Next) In(
        NoticeState state,
        string? after,
        int most,
        ImmutableArray<string>? among = null
    )
    {
        var last = after is not null && NoticeId.Read(log, after) is { } place ? At(place) : null;
        var found = store.In(state, last, most + 1, among);
        ImmutableArray<KeptNotice> items = [.. found.Take(most).Select(notice => KeptNotice.Of(notice, log))];
        return (items, found.Length > most ? items[^1].Id : null);
    }

    /// <summary>Whether it can be the name of a notice of this log.</summary>
    public bool IsName(string id) => NoticeId.Read(log, id) is not null;

    /// <summary>Has one tried anew that was given up; how it stands then. Null: there is no such notice.</summary>
    /// <param name="id">Its name.</param>
    /// <param name="by">Who asks, as acts name it.</param>
    /// <param name="sees">Whether whoever asks may see what an entry tells; null: everything.</param>
    public KeptNotice? TryAnew(string id, string by, Func<long, bool>? sees = null)
    {
        if (NoticeId.Read(log, id) is not { } place || sees?.Invoke(place.Entry) is false)
        {
            return null;
        }

        _ = store.TryAnew(
            place.Entry,
            place.Recipient,
            new AccountAct(
                clock.GetUtcNow(),
                AccountAct.NoticeTriedAnew,
                by,
                AccountAct.OfNotice(NoticeWork.WhatOf(At(place)))
            )
        );
        return Find(place);
    }

    /// <summary>How one stands. Null: there is no such notice.</summary>
    /// <param name="id">Its name.</param>
    /// <param name="sees">Whether whoever asks may see what an entry tells; null: everything.</param>
    public KeptNotice? Find(string id, Func<long, bool>? sees) =>
        NoticeId.Read(log, id) is { } place && sees?.Invoke(place.Entry) is not false ? Find(place) : null;

    private KeptNotice? Find((long Entry, string Recipient) place) =>
        store.Find(place.Entry, place.Recipient) is { } notice ? KeptNotice.Of(notice, log) : null;

    // A place among notices, whether one stands there or not.
    private static Notice At((long Entry, string Recipient) place) =>
        new(place.Entry, place.Recipient, DateTimeOffset.UnixEpoch);
}
