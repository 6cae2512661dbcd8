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
    /// <exception cref="BrokenLogException">The log holds an entry about it that is none.</exception>
    public ImmutableArray<SubjectVersion> Tell(string subject)
    {
        var about = EntryReading.About(log, subject).ToList();
        var versions = ImmutableArray.CreateBuilder<SubjectVersion>();
        foreach (var entry in about.Where(entry => entry.IsVersion()))
        {
            var before = versions.LastOrDefault(version => version.Entry.IsVersionOf(entry));
            versions.Add(Version(entry, about, before));
        }

        return versions.ToImmutable();
    }

    /// <summary>
    /// The same, each thing for itself: a record may bear the identity of a hold, an order, or of what the log keeps of its own.
    /// </summary>
    /// <exception cref="BrokenLogException">The log holds an entry about it that is none.</exception>
    public ImmutableArray<ImmutableArray<SubjectVersion>> TellApart(string subject)
    {
        var apart = new List<List<SubjectVersion>>();
        foreach (var version in Tell(subject))
        {
            if (apart.Find(thing => thing[0].Entry.IsVersionOf(version.Entry)) is { } known)
            {
                known.Add(version);
            }
            else
            {
                apart.Add([version]);
            }
        }

        return [.. apart.Select(thing => thing.ToImmutableArray())];
    }

    private SubjectVersion Version(FiledEntry entry, List<FiledEntry> about, SubjectVersion? before)
    {
        var content = log.Sound(entry.Entry.Content);
        // A version that was filed twice was judged in the stretch up to the next version with its content.
        var judged = about
            .Where(other => other.Entry.Kind is EntryKind.Assessment && other.Entry.Of == entry.Entry.Content)
            .Select(Judged)
            .ToImmutableArray();
        var assessments = judged.Select(one => one.Entry.Entry.Content).ToHashSet(StringComparer.Ordinal);
        return new SubjectVersion(
            entry,
            entry.Entry.By is { } by ? log.PersonBehind(by) : null,
            before?.Content is { } old && content is { } now ? [.. JsonDifference.Between(old, now)] : null,
            content,
            content is null ? log.WhyNone(entry.Entry.Content) : null,
            judged,
            [
                .. about.Where(other =>
                    other.Entry.Kind is EntryKind.Report && assessments.Contains(other.Entry.Of!)
                ),
            ],
            Latest(before) is { } was && Latest(judged) is { } became
                ? VerdictComparison.Between(was, became)
                : []
        )
        {
            SentFor = entry.Entry.Sender?.Person is { } behind ? log.PersonBehind(behind) : null,
            IsDamaged = judged.Select(one => one.Entry).Prepend(entry).Any(IsDamaged),
        };
    }

    private bool IsDamaged(FiledEntry entry) =>
        log.Sound(entry.Entry.Content) is null
        && !(
            ContentHash.TryParse(entry.Entry.Content, out var hash)
            && log.Content(hash) is null
            && log.IsErased(hash)
        );

    private static Assessment? Latest(SubjectVersion? version) =>
        version is null ? null : Latest(version.Assessments);

    private static Assessment? Latest(ImmutableArray<SubjectVersion.Judged> judged) =>
        judged.IsEmpty ? null : judged[^1].Assessment;

    private SubjectVersion.Judged Judged(FiledEntry entry)
    {
        if (log.Sound(entry.Entry.Content) is not { } bytes)
        {
            return new(entry, null, log.WhyNone(entry.Entry.Content));
        }

        return AssessmentFormat.Current.Read(bytes).TryGet(out var assessment, out _)
            ? new(entry, assessment, null)
            : new(
                entry,
                null,
                AssessmentFormat.SemanticsOf(bytes.Span) is { } semantics
                && semantics != Assessment.SemanticsVersion
                    ? $"by version `{semantics}` of the verdict semantics, not read here"
                    : "not one that can be read here"
            );
    }
}
