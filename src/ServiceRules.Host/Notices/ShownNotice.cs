using System.Globalization;
using ServiceRules.Application.Ledger;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Pages.Filed;

namespace ServiceRules.Host.Notices;

/// <summary>A notice as a page tells it.</summary>
/// <param name="Id">Its name.</param>
/// <param name="Recipient">Whom it is for.</param>
/// <param name="State">How it stands, in words.</param>
/// <param name="Record">The record that it tells of; null: none, or not for whoever asks to see.</param>
/// <param name="About">What it tells of otherwise.</param>
/// <param name="Due">When it fell due.</param>
/// <param name="Attempts">How often it was tried.</param>
/// <param name="Failure">What came of the last attempt that failed.</param>
public sealed record ShownNotice(
    string Id,
    string Recipient,
    string State,
    string? Record,
    string About,
    string Due,
    int Attempts,
    string? Failure
)
{
    /// <summary>Whether it was given up, so that it can be tried anew.</summary>
    public bool IsGivenUp { get; init; }

    internal static ShownNotice Of(KeptNotice notice, OpenLedger ledger, Caller caller) =>
        new(
            notice.Id,
            notice.Recipient,
            WordOf(notice.State),
            notice.Entry is { } entry && AccessTable.Opens("GET", "/records/{id}", caller)
                ? RecordAt(ledger, entry)
                : null,
            notice.Entry is { } place
                ? string.Create(CultureInfo.InvariantCulture, $"entry {place} of the log")
                : "something that falls due",
            ShownComment.Time(notice.DueAt),
            notice.Attempts,
            notice.Failure
        )
        {
            IsGivenUp = notice.State == NoticeWords.GivenUp,
        };

    public static string WordOf(string state) => state.Replace('-', ' ');

    private static string? RecordAt(OpenLedger ledger, long entry) =>
        ledger.Log.Entry(entry) is { } stored && EntryReading.TryRead(stored, out var filed, out _)
            ? filed.Entry.Subject
            : null;
}
