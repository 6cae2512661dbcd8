using ServiceRules.Application.Due;
using ServiceRules.Application.Ledger;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Host.Accounts;

/// <summary>Entries of the log, as far as whoever asks may see them.</summary>
internal static class SeenEntries
{
    /// <summary>
    /// Whoever is of one site sees what stands there of the site's records, and nothing of which the site is not known: rules
    /// coming into force name the record that they were used for first, whosesoever it is.
    /// </summary>
    public static bool Sees(Caller caller, OpenLedger ledger, StoredEntry stored) =>
        caller.SeesEverySite
        || (
            EntryReading.TryRead(stored, out var filed, out _)
            && filed.Entry.Kind
                is EntryKind.Record
                    or EntryKind.Amendment
                    or EntryKind.Assessment
                    or EntryKind.Report
                    or EntryKind.Comment
            && SeenRecords.IsOfSites(ledger.Log, ledger.Rows, filed.Entry.Subject, caller)
            && (filed.Entry.Kind is not EntryKind.Report || IsOfRecord(ledger, filed))
        );

    /// <summary>
    /// Asks of what a notice is of by its place, negative where it is the number of something that falls due; null: whoever asks sees
    /// all of them.
    /// </summary>
    public static Func<long, bool>? By(Caller caller, OpenLedger ledger, IDueStore due) =>
        caller.SeesEverySite
            ? null
            : index =>
                index < 0
                    ? due.Told(-index) is { } told && caller.SeesSite(told.Site)
                    : ledger.Log.Entry(index) is { } stored && Sees(caller, ledger, stored);

    // What a report of a period is about is no record, though one may be called the same.
    private static bool IsOfRecord(OpenLedger ledger, FiledEntry report) =>
        ledger.Read(log =>
            new TellSubject(log)
                .Tell(report.Entry.Subject)
                .Any(version => version.Reports.Any(one => one.Index == report.Index))
        );
}
