using ServiceRules.Application.Keeping;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Submitting;
using ServiceRules.Formats.Ledger;
using ServiceRules.Host.Accounts;

namespace ServiceRules.Host.Filing;

/// <summary>A record as it stands, what judging it came to, and its versions over time.</summary>
/// <param name="Id">The record.</param>
/// <param name="Record">Its newest version; left out where it is no longer kept.</param>
/// <param name="Assessment">What judging that came to, the last time; left out where it is no longer kept.</param>
/// <param name="Others">What of other stored records that took into account; left out where that is no longer kept.</param>
/// <param name="Withheld">Of how many findings it is kept back what they say, since it rests on records that whoever asks may not see; left out where of none.</param>
/// <param name="Turned">How often that version was judged again, in the light of a later record or by other rules, the first time first.</param>
/// <param name="Versions">Its versions, the oldest first.</param>
/// <param name="Comments">What was said of it, the oldest first.</param>
internal sealed record RecordAnswer(
    string Id,
    EmbeddedRecord? Record,
    EmbeddedAssessment? Assessment,
    ToldOthers? Others,
    int? Withheld,
    IReadOnlyList<ToldTurn> Turned,
    IReadOnlyList<ToldVersion> Versions,
    IReadOnlyList<ToldComment> Comments
)
{
    /// <summary>Null where no such record is filed.</summary>
    /// <exception cref="LedgerStoreException">Something of it is gone, or other bytes now, and no erasure removed it.</exception>
    /// <param name="log">The log.</param>
    /// <param name="id">The record.</param>
    /// <param name="seen">What of other records is told to whoever asks; null: everything.</param>
    public static RecordAnswer? Of(ILedgerReading log, string id, SeenOthers? seen = null)
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
        var judged =
            newest.Assessments.IsEmpty ? new AssessmentAsSeen(null, null, 0, 0)
            : newest.Assessments[^1].Entry is var last && seen is not null ? seen.Of(last)
            : new(log.Kept(last.Entry.Content), AssessmentOthers.Of(log, last), 0, 0);
        return new(
            id,
            log.Kept(newest.Entry.Entry.Content) is { } record ? new EmbeddedRecord(record) : null,
            judged.Bytes is { } assessment ? new EmbeddedAssessment(assessment) : null,
            judged.Others is { } others ? ToldOthers.Of(others, judged.HiddenOthers) : null,
            judged.Withheld == 0 ? null : judged.Withheld,
            [
                .. TurnedRecord
                    .Of(log, newest)
                    .Select(ToldTurn.Of)
                    .Select(turn => seen is null ? turn : seen.Of(turn)),
            ],
            [.. versions.Select(ToldVersion.Of).Select(version => seen is null ? version : seen.Of(version))],
            [.. AddComment.Of(log, id).Select(entry => ToldComment.Of(log, entry))]
        );
    }
}
