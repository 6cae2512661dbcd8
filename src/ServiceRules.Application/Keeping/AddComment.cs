using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Keeping;

/// <summary>Files what somebody who oversees says of a record. It changes no verdict, and nothing of it is overwritten.</summary>
public sealed class AddComment(OpenLedger ledger)
{
    /// <param name="comment">What is said, and of which record.</param>
    /// <param name="by">Who says it.</param>
    public FilingOutcome Add(Comment comment, string by)
    {
        ArgumentNullException.ThrowIfNull(comment);
        var content = CanonicalForm.Of(CommentFormat.Current.Write(comment)).Bytes;
        var draft = new EntryDraft(EntryKind.Comment, comment.Record, content) { Person = by };
        return ledger.File(log =>
        {
            if (RecordVersions.Of(log, comment.Record).Latest is null)
            {
                return new FilingPlan.Refuse(
                    new($"no record `{comment.Record}` is filed here", "one that is filed")
                );
            }

            var known = log.PseudonymOf(by);
            var standing = EntryReading
                .About(log, comment.Record)
                .LastOrDefault(entry =>
                    entry.Entry.Kind is EntryKind.Comment
                    && entry.Entry.Content == draft.Hash.ToString()
                    && known is not null
                    && entry.Entry.By == known
                );
            return new FilingPlan.File(
                [standing is null ? new FilingPart.New(draft) : new FilingPart.Standing(standing)],
                []
            );
        });
    }

    /// <summary>The comments on a record, the oldest first.</summary>
    public static IEnumerable<FiledEntry> Of(ILedgerReading log, string record) =>
        EntryReading.About(log, record).Where(entry => entry.Entry.Kind is EntryKind.Comment);
}
