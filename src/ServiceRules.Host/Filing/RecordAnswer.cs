using ServiceRules.Application.Keeping;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Submitting;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Host.Filing;

/// <summary>A record as it stands, what judging it came to, and its versions over time.</summary>
/// <param name="Id">The record.</param>
/// <param name="Record">Its newest version; left out where it is no longer kept.</param>
/// <param name="Assessment">What judging that came to, the last time; left out where it is no longer kept.</param>
/// <param name="Others">What of other stored records that took into account; left out where that is no longer kept.</param>
/// <param name="Turned">How often that version was judged again, in the light of a later record or by other rules, the first time first.</param>
/// <param name="Versions">Its versions, the oldest first.</param>
/// <param name="Comments">What was said of it, the oldest first.</param>
internal sealed record RecordAnswer(
    string Id,
    EmbeddedRecord? Record,
    EmbeddedAssessment? Assessment,
    ToldOthers? Others,
    IReadOnlyList<ToldTurn> Turned,
    IReadOnlyList<ToldVersion> Versions,
    IReadOnlyList<ToldComment> Comments
)
{
    /// <summary>Null where no such record is filed.</summary>
    /// <exception cref="LedgerStoreException">Something of it is gone, or other bytes now, and no erasure removed it.</exception>
    public static RecordAnswer? Of(ILedgerReading log, string id)
    {
        var versions = new TellSubject(log)
            .Tell(id)
            .Where(version => version.Entry.Entry.Kind is EntryKind.Record or EntryKind.Amendment)
            .ToList();
        if (versions.Count == 0)
        {
            return null;
        }

        var newest = versions[^1];
        return new(
            id,
            log.Kept(newest.Entry.Entry.Content) is { } record ? new EmbeddedRecord(record) : null,
            !newest.Assessments.IsEmpty
            && log.Kept(newest.Assessments[^1].Entry.Entry.Content) is { } assessment
                ? new EmbeddedAssessment(assessment)
                : null,
            !newest.Assessments.IsEmpty
            && AssessmentOthers.Of(log, newest.Assessments[^1].Entry) is { } others
                ? ToldOthers.Of(others)
                : null,
            [.. TurnedRecord.Of(log, newest).Select(ToldTurn.Of)],
            [.. versions.Select(ToldVersion.Of)],
            [.. AddComment.Of(log, id).Select(entry => ToldComment.Of(log, entry))]
        );
    }
}
