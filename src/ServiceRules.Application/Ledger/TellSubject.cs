using System.Collections.Immutable;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Evidence;
using ServiceRules.Formats.Assessments;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Ledger;

/// <summary>Tells what was filed about a record, an order, a waiver or the rules over time.</summary>
public sealed class TellSubject(ILedgerReading log)
{
    /// <summary>Its versions, the oldest first; empty when nothing about it was filed.</summary>
    /// <exception cref="InvalidOperationException">The log holds an entry about it that is none.</exception>
    public ImmutableArray<SubjectVersion> Tell(string subject)
    {
        var about = EntryReading.About(log, subject).ToList();
        var versions = ImmutableArray.CreateBuilder<SubjectVersion>();
        foreach (var entry in about.Where(IsVersion))
        {
            versions.Add(Version(entry, about, versions.Count == 0 ? null : versions[^1]));
        }

        return versions.ToImmutable();
    }

    private static bool IsVersion(FiledEntry entry) =>
        entry.Entry.Kind is not (EntryKind.Assessment or EntryKind.Report);

    private SubjectVersion Version(FiledEntry entry, List<FiledEntry> about, SubjectVersion? before)
    {
        var content = Content(entry);
        // A version that was filed twice was judged in the stretch up to the next version with its content.
        var judged = about
            .Where(other => other.Entry.Kind is EntryKind.Assessment && other.Entry.Of == entry.Entry.Content)
            .Select(other => new SubjectVersion.Judged(other, Assessment(other)))
            .ToImmutableArray();
        var assessments = judged.Select(one => one.Entry.Entry.Content).ToHashSet(StringComparer.Ordinal);
        return new SubjectVersion(
            entry,
            entry.Entry.By is { } by ? log.PersonBehind(by) : null,
            before?.Content is { } old && content is { } now ? [.. JsonDifference.Between(old, now)] : null,
            content,
            judged,
            [
                .. about.Where(other =>
                    other.Entry.Kind is EntryKind.Report && assessments.Contains(other.Entry.Of!)
                ),
            ],
            Latest(before) is { } was && Latest(judged) is { } became
                ? VerdictComparison.Between(was, became)
                : []
        );
    }

    private static Assessment? Latest(SubjectVersion? version) =>
        version is null ? null : Latest(version.Assessments);

    private static Assessment? Latest(ImmutableArray<SubjectVersion.Judged> judged) =>
        judged.IsEmpty ? null : judged[^1].Assessment;

    private Assessment? Assessment(FiledEntry entry) =>
        Content(entry) is { } bytes && AssessmentFormat.Current.Read(bytes).TryGet(out var assessment, out _)
            ? assessment
            : null;

    private ReadOnlyMemory<byte>? Content(FiledEntry entry) =>
        ContentHash.TryParse(entry.Entry.Content, out var hash)
        && log.Content(hash) is { } bytes
        && ContentHash.Of(bytes.Span) == hash
            ? bytes
            // Plain null would become empty bytes here.
            : default(ReadOnlyMemory<byte>?);
}
