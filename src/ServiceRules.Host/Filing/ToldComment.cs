using ServiceRules.Application.Ledger;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Host.Filing;

/// <summary>What was said of a record.</summary>
/// <param name="Entry">Where it stands, when it was filed and by whom.</param>
/// <param name="Text">What was said; left out where it is no longer kept.</param>
internal sealed record ToldComment(ToldEntry Entry, string? Text)
{
    public static ToldComment Of(ILedgerReading log, FiledEntry entry) =>
        new(
            ToldEntry.Of(entry),
            log.Kept(entry.Entry.Content) is { } bytes
            && CommentFormat.Current.Read(bytes).TryGet(out var comment, out _)
                ? comment.Text
                : null
        );
}
