using ServiceRules.Application.Ledger;
using ServiceRules.Application.Rows;
using ServiceRules.Host.Filing;

namespace ServiceRules.Host.Accounts;

/// <summary>Records, as far as whoever asks may see them. One that may not be seen is answered for like one that is not there.</summary>
internal static class SeenRecords
{
    public static RecordAnswer? Of(OpenLedger ledger, string id, Caller caller) =>
        ledger.Read(log => RecordAnswer.Of(log, id)) is { } answer && caller.Sees(answer.Record?.Bytes)
            ? answer
            : null;

    /// <summary>A page of rows without those that may not be seen: it may hold fewer than were asked for, and yet not be the last.</summary>
    public static RowPage<RecordRow> Rows(
        OpenLedger ledger,
        RecordFilter filter,
        RowPaging paging,
        Caller caller
    )
    {
        var page = ledger.Rows.Records(filter, paging);
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
