using ServiceRules.Application.Ledger;
using ServiceRules.Formats.Ledger;
using ServiceRules.Host.Apis;

namespace ServiceRules.Host.Filing;

/// <summary>A record as it stands, what judging it came to, and its versions over time.</summary>
/// <param name="Id">The record.</param>
/// <param name="Record">Its newest version; left out where it is no longer kept.</param>
/// <param name="Assessment">What judging that came to; left out where it is no longer kept.</param>
/// <param name="Versions">Its versions, the oldest first.</param>
internal sealed record RecordAnswer(
    string Id,
    [property: Published("service-record")] EmbeddedJson? Record,
    [property: Published("assessment")] EmbeddedJson? Assessment,
    IReadOnlyList<RecordAnswer.Version> Versions
)
{
    /// <summary>Null where no such record is filed.</summary>
    public static RecordAnswer? Of(ILedgerReading log, string id)
    {
        var versions = new TellSubject(log).Tell(id).Where(IsRecord).ToList();
        if (versions.Count == 0)
        {
            return null;
        }

        var newest = versions[^1];
        var assessment = newest.Assessments.IsEmpty
            ? null
            : ContentOf(log, newest.Assessments[^1].Entry.Entry.Content);
        return new(
            id,
            newest.Content is { } record ? new EmbeddedJson(record) : null,
            assessment,
            [.. versions.Select(Told)]
        );
    }

    public static bool IsRecord(SubjectVersion version) =>
        version.Entry.Entry.Kind is EntryKind.Record or EntryKind.Amendment;

    private static EmbeddedJson? ContentOf(ILedgerReading log, string digest) =>
        log.Sound(digest) is { } bytes ? new EmbeddedJson(bytes) : null;

    private static Version Told(SubjectVersion version) =>
        new(
            ToldEntry.Of(version.Entry),
            version.WhyNone,
            [.. version.Assessments.Select(judged => ToldEntry.Of(judged.Entry))],
            [.. version.Reports.Select(ToldEntry.Of)]
        );

    /// <summary>One version.</summary>
    /// <param name="Entry">Where it stands, when it was filed, by whom and why.</param>
    /// <param name="NotKept">Why its content is not there; left out where it is.</param>
    /// <param name="Assessments">What judging it came to, the oldest first.</param>
    /// <param name="Reports">Reports issued on it.</param>
    internal sealed record Version(
        ToldEntry Entry,
        string? NotKept,
        IReadOnlyList<ToldEntry> Assessments,
        IReadOnlyList<ToldEntry> Reports
    );
}
