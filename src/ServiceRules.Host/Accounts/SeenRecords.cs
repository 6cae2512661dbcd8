using ServiceRules.Application.Ledger;
using ServiceRules.Application.Rows;
using ServiceRules.Formats.Ledger;
using ServiceRules.Host.Filing;
using ServiceRules.Host.Sites;

namespace ServiceRules.Host.Accounts;

/// <summary>Records, as far as whoever asks may see them. One that may not be seen is answered for like one that is not there.</summary>
internal static class SeenRecords
{
    public static RecordAnswer? Of(OpenLedger ledger, string id, Caller caller, ServedSites sites) =>
        ledger.Read(
            (log, rows) =>
                IsSeen(log, rows, id, caller) && !SeenOthers.CannotTell(caller, sites)
                    ? RecordAnswer.Of(log, id, SeenOthers.For(caller, sites, log, rows))
                    : null
        );

    /// <summary>Whether a record is filed and may be seen.</summary>
    public static bool IsSeen(OpenLedger ledger, string id, Caller caller) =>
        ledger.Read((log, rows) => IsSeen(log, rows, id, caller));

    /// <summary>The same, of what is stored at one moment.</summary>
    public static bool IsSeen(ILedgerReading log, IRowReading rows, string id, Caller caller) =>
        IsOfSites(log, rows, id, caller)
        && (!caller.IsLimited || caller.Sees(Newest(log, id) is { } content ? log.Kept(content) : null));

    private static string? Newest(ILedgerReading log, string id) =>
        new TellSubject(log)
            .Tell(id)
            .LastOrDefault(version => version.Entry.Entry.Kind is EntryKind.Record or EntryKind.Amendment)
            ?.Entry.Entry.Content;

    /// <summary>
    /// Whether a record is filed, and of a site of whoever asks. Where its rows went with its content, whoever is of every site still
    /// sees that it was there.
    /// </summary>
    public static bool IsOfSites(ILedgerReading log, IRowReading rows, string id, Caller caller) =>
        rows.Versions(id) is { IsEmpty: false } versions
            ? versions.All(version => caller.SeesSite(version.Site))
            : caller.SeesEverySite && new TellSubject(log).Tell(id).Any();

    /// <summary>A page of rows without those that may not be seen: it may hold fewer than were asked for, and yet not be the last.</summary>
    public static RowPage<RecordRow> Rows(
        OpenLedger ledger,
        RecordFilter filter,
        RowPaging paging,
        Caller caller
    )
    {
        var page = ledger.Rows.Records(filter with { Among = caller.Sites }, paging);
        return caller.IsLimited
            ? ledger.Read(log =>
                page with
                {
                    Rows = [.. page.Rows.Where(row => caller.Sees(log.Sound(row.RecordHash)))],
                }
            )
            : page;
    }
}
