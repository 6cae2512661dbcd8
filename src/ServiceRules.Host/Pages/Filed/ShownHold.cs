using ServiceRules.Application.Keeping;
using ServiceRules.Application.Ledger;
using ServiceRules.Host.Accounts;

namespace ServiceRules.Host.Pages.Filed;

/// <summary>A hold as a page tells it.</summary>
/// <param name="Id">What it is called.</param>
/// <param name="Keeps">What it keeps.</param>
/// <param name="Since">Since when, by whom and why.</param>
/// <param name="Entry">Its entry of the log.</param>
/// <param name="Lifted">When it was lifted, by whom and why; null: it holds.</param>
/// <param name="LiftedBy">The entry that lifted it.</param>
public sealed record ShownHold(
    string Id,
    string Keeps,
    string Since,
    long Entry,
    string? Lifted,
    long? LiftedBy
)
{
    public bool Holds => Lifted is null;

    internal static ShownHold Of(ILedgerReading log, Hold hold, Caller caller) =>
        new(
            hold.Id,
            hold.Told,
            Told(log, hold.Entry, caller),
            hold.Entry.Index,
            hold.Lifted is { } lifted ? Told(log, lifted, caller) : null,
            hold.Lifted?.Index
        );

    private static string Told(ILedgerReading log, FiledEntry entry, Caller caller) =>
        $"{ShownComment.Time(entry.Entry.At)}, by {ShownComment.Who(log, entry.Entry.By, caller)}: {entry.Entry.Reason}";
}
