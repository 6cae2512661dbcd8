using ServiceRules.Application.Assessing;
using ServiceRules.Application.Keeping;
using ServiceRules.Evidence;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Ledger;

/// <summary>
/// Gives up what is lost of a record and no copy has: from then on it counts as removed on purpose, by an entry that says who answers
/// for that and why, and what it may have said keeps nobody from filing any more. Nothing that is there as it was filed is removed.
/// </summary>
public sealed class GiveUpLost(OpenLedger ledger)
{
    /// <param name="record">The record.</param>
    /// <param name="correction">Who answers for it, and why.</param>
    public FilingOutcome GiveUp(string record, Correction correction)
    {
        ArgumentNullException.ThrowIfNull(correction);
        return ledger.File(log =>
        {
            var about = EntryReading.About(log, record).Where(IsOfRecord).ToList();
            if (about.Count == 0)
            {
                return new FilingPlan.Refuse(
                    new($"no record `{record}` is filed", "the identity of a filed record")
                );
            }

            var erased = Erasures.Of(log);
            var lost = about
                .Select(entry => ContentHash.TryParse(entry.Entry.Content, out var hash) ? hash : default)
                .Distinct()
                .Where(hash => !erased.Contains(hash) && log.Sound(hash) is null)
                .OrderBy(hash => hash.ToString(), StringComparer.Ordinal)
                .ToList();
            if (lost.Count == 0)
            {
                return new FilingPlan.Refuse(
                    new(
                        $"nothing is lost of what was filed about `{record}`",
                        "a record of which `ledger verify` names a content that is missing or changed"
                    )
                );
            }

            if (HoldsOfLog.Read(log).Keeping(log, record) is { } hold)
            {
                return new FilingPlan.Refuse(
                    new(
                        $"hold `{hold.Id}` ({hold.Told}) keeps it, because: {hold.Entry.Entry.Reason}",
                        "after it was lifted"
                    )
                );
            }

            var expiry = new Expiry([.. lost.Select(hash => hash.ToString())]);
            var draft = new EntryDraft(
                EntryKind.Expiry,
                RetentionOfLog.Subject,
                CanonicalForm.Of(ExpiryFormat.Current.Write(expiry)).Bytes
            )
            {
                Person = correction.By,
                Reason = correction.Reason,
            };
            return new FilingPlan.File([new FilingPart.New(draft)], []) { Removed = [.. lost] };
        });
    }

    private static bool IsOfRecord(FiledEntry entry) =>
        entry.Entry.Kind
            is EntryKind.Record
                or EntryKind.Amendment
                or EntryKind.Assessment
                or EntryKind.Report
                or EntryKind.Comment;
}
