using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Ledger;

/// <summary>
/// Which entries are versions of one thing. Subjects are told apart by kind as well: a record may bear the identity of a
/// setting order.
/// </summary>
internal static class EntryFamily
{
    /// <summary>Whether it is a version of something, and not what came of one.</summary>
    public static bool IsVersion(this FiledEntry filed) =>
        filed.Entry.Kind is not (EntryKind.Assessment or EntryKind.Report or EntryKind.Comment);

    /// <summary>Whether both are versions of the same thing, given that their subject is the same.</summary>
    public static bool IsVersionOf(this FiledEntry filed, FiledEntry other) =>
        filed.IsVersion() && other.IsVersion() && Family(filed) == Family(other);

    private static EntryKind Family(FiledEntry filed) =>
        filed.Entry.Kind is EntryKind.Amendment ? EntryKind.Record : filed.Entry.Kind;
}
