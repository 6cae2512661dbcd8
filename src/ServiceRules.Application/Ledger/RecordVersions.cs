using System.Collections.Immutable;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Ledger;

/// <summary>The versions of one record, the oldest first.</summary>
internal sealed record RecordVersions(ImmutableArray<FiledEntry> All)
{
    public static RecordVersions Of(ILedgerReading log, string id) =>
        new([
            .. EntryReading
                .About(log, id)
                .Where(entry => entry.Entry.Kind is EntryKind.Record or EntryKind.Amendment),
        ]);

    public FiledEntry? Latest => All.IsEmpty ? null : All[^1];

    /// <summary>
    /// The version that has this content already. An amendment may go back to an earlier one, so that only the newest
    /// stands in its way.
    /// </summary>
    public FiledEntry? Standing(string content, bool isAmending) =>
        isAmending
            ? (Latest?.Entry.Content == content ? Latest : null)
            : All.LastOrDefault(entry => entry.Entry.Content == content);
}
