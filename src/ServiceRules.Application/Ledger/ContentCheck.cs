using System.Collections.Immutable;
using ServiceRules.Application.Accounts;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Evidence;
using ServiceRules.Formats.Assessments;
using ServiceRules.Formats.Json;
using ServiceRules.Formats.Ledger;
using ServiceRules.Formats.Packs;
using ServiceRules.Formats.Records;
using ServiceRules.Formats.Registers;
using ServiceRules.Formats.SafeWork;

namespace ServiceRules.Application.Ledger;

/// <summary>Holds what entries name against what is kept, and entries against each other.</summary>
internal sealed class ContentCheck(
    ILedgerReading log,
    IReadOnlyList<FiledEntry> entries,
    HashSet<ContentHash> erased,
    ImmutableArray<LedgerFault>.Builder faults,
    HashSet<ContentHash> hashed
)
{
    private readonly ILookup<string, FiledEntry> bySubject = entries.ToLookup(
        entry => entry.Entry.Subject,
        StringComparer.Ordinal
    );

    private readonly HashSet<ContentHash> told = [];
    private readonly HashSet<ContentHash> sound = [];

    /// <summary>How many assessments there are by other versions of the verdict semantics.</summary>
    public SortedDictionary<string, int> OtherSemantics { get; } = new(StringComparer.Ordinal);

    public void Check(FiledEntry filed)
    {
        var place = LedgerWords.Entry(filed.Index);
        References(filed, place);
        if (Content(filed.Entry.Content, place) is not { } content)
        {
            return;
        }

        if (content.Length != filed.Entry.ContentBytes)
        {
            Tell(
                LedgerFaultCode.Entry,
                place,
                $"it says {LedgerWords.Number(filed.Entry.ContentBytes)} bytes of content, there are {content.Length}"
            );
        }

        Meaning(filed, content, place);
    }

    private void Meaning(FiledEntry filed, ReadOnlyMemory<byte> content, string place)
    {
        switch (filed.Entry.Kind)
        {
            case EntryKind.Record:
            case EntryKind.Amendment:
                if (Read(RecordFormat.Current, content, place) is { } record)
                {
                    Same(record.Id.Text, filed.Entry.Subject, "record", place);
                    Progress(filed, content, place);
                }

                break;
            case EntryKind.Assessment:
                Judged(filed, content, place);
                break;
            case EntryKind.Report when !content.Span.StartsWith("%PDF-"u8):
                Tell(LedgerFaultCode.Content, place, "its content is no PDF file");
                break;
            case EntryKind.Report:
                break;
            case EntryKind.SettingOrder:
                if (Read(SettingOrderFormat.Current, content, place) is { } order)
                {
                    Same(order.Id.Text, filed.Entry.Subject, "setting order", place);
                }

                break;
            case EntryKind.Waiver:
                if (Read(WaiverFormat.Current, content, place) is { } waiver)
                {
                    Same(FileSiteDocument.SubjectOf(waiver), filed.Entry.Subject, "waiver", place);
                }

                break;
            case EntryKind.PackActivation:
                _ = Read(RulePackFormat.Book, content, place);
                break;
            case EntryKind.Erasure:
                if (Read(ErasureFormat.Current, content, place) is { } erasure)
                {
                    Same(erasure.Pseudonym, filed.Entry.Subject, "pseudonym", place);
                }

                break;
            case EntryKind.Act:
                if (Read(LoggedActFormat.Current, content, place) is { } act)
                {
                    Same(LoggedActs.SubjectOf(act), filed.Entry.Subject, "act", place);
                }

                break;
            case EntryKind.Hold:
                _ = Read(HoldFormat.Current, content, place);
                break;
            case EntryKind.Retention:
                _ = Read(RetentionFormat.Current, content, place);
                break;
            case EntryKind.Expiry:
                _ = Read(ExpiryFormat.Current, content, place);
                break;
            case EntryKind.Comment:
                if (Read(CommentFormat.Current, content, place) is { } comment)
                {
                    Same(comment.Record, filed.Entry.Subject, "record", place);
                }

                break;
            default:
                throw new InvalidOperationException("an unknown kind of entry");
        }
    }

    private void Judged(FiledEntry filed, ReadOnlyMemory<byte> content, string place)
    {
        // Meaning and words of another version are not known here; what it was judged by is named alike in all.
        if (
            AssessmentFormat.SemanticsOf(content.Span) is { } semantics
            && semantics != Assessment.SemanticsVersion
        )
        {
            OtherSemantics[semantics] = OtherSemantics.GetValueOrDefault(semantics) + 1;
            if (AssessmentFormat.DigestsOf(content.Span) is { } named)
            {
                Digests(filed, named, place);
            }
        }
        else if (Read(AssessmentFormat.Current, content, place) is { } assessment)
        {
            Same(assessment.Record.Text, filed.Entry.Subject, "record", place);
            Digests(filed, assessment.Digests, place);
        }
    }

    private void Digests(FiledEntry filed, AssessmentDigests digests, string place)
    {
        Same(digests.Record, filed.Entry.Of!, "judged record", place);
        Beside(digests.Context, $"{place}, its context");
        Beside(digests.Packs, $"{place}, its rules");
    }

    // Many assessments share their rules: those are hashed once, unless there is something to tell of each.
    private void Beside(string digest, string place)
    {
        if (!ContentHash.TryParse(digest, out var hash) || !sound.Contains(hash))
        {
            _ = Content(digest, place);
        }
    }

    private void References(FiledEntry filed, string place)
    {
        var earlier = bySubject[filed.Entry.Subject].Where(other => other.Index < filed.Index).ToList();
        if (filed.Entry.Corrects is { } corrects)
        {
            var corrected = earlier.Find(other => other.Index == corrects.Index);
            var newest = earlier.FindLast(other => other.IsVersionOf(filed));
            if (corrected is null || corrected.Entry.Content != corrects.Content)
            {
                Tell(
                    LedgerFaultCode.Reference,
                    place,
                    $"it corrects {LedgerWords.Entry(corrects.Index)} with content {corrects.Content}, and that is not there"
                );
            }
            else if (newest != corrected)
            {
                Tell(
                    LedgerFaultCode.Reference,
                    place,
                    $"it corrects {LedgerWords.Entry(corrects.Index)}, which was not the newest version then"
                );
            }
        }

        if (
            filed.Entry.Of is { } of
            && !earlier.Exists(other => other.Entry.Content == of)
            && !IsOfJobs(filed, of, place)
        )
        {
            Tell(
                LedgerFaultCode.Reference,
                place,
                $"no earlier entry about `{filed.Entry.Subject}` has the content {of} that it is about"
            );
        }
    }

    /// <summary>The report of a period speaks of jobs that are kept beside it and have no entry of their own.</summary>
    private bool IsOfJobs(FiledEntry filed, string of, string place)
    {
        if (filed.Entry.Kind is not EntryKind.Report || !ContentHash.TryParse(of, out var hash))
        {
            return false;
        }

        if (erased.Contains(hash))
        {
            return true;
        }

        if (log.Content(hash) is null)
        {
            return false;
        }

        if (Content(of, $"{place}, its jobs") is { } jobs)
        {
            _ = Read(SafeWorkJobsFormat.Current, jobs, $"{place}, its jobs");
        }

        return true;
    }

    // A record filed again without saying what it corrects may only go on.
    private void Progress(FiledEntry filed, ReadOnlyMemory<byte> content, string place)
    {
        if (filed.Entry.Kind is EntryKind.Amendment)
        {
            return;
        }

        var before = bySubject[filed.Entry.Subject]
            .LastOrDefault(other => other.Index < filed.Index && other.IsVersionOf(filed));
        if (
            before is not null
            && log.Sound(before.Entry.Content) is { } old
            && !RecordProgress.IsProgress(old, content)
        )
        {
            Tell(
                LedgerFaultCode.Content,
                place,
                $"it changes what {LedgerWords.Entry(before.Index)} says, and is no amendment"
            );
        }
    }

    private ReadOnlyMemory<byte>? Content(string digest, string place)
    {
        if (!ContentHash.TryParse(digest, out var hash))
        {
            return null;
        }

        if (log.Content(hash) is not { } content)
        {
            if (!erased.Contains(hash))
            {
                Tell(LedgerFaultCode.ContentMissing, place, $"{hash} is not kept, and no erasure removed it");
            }

            return null;
        }

        hashed.Add(hash);
        if (ContentHash.Of(content.Span) is var found && found != hash)
        {
            if (told.Add(hash))
            {
                Tell(LedgerFaultCode.ContentChanged, place, $"what is kept as {hash} has the hash {found}");
            }

            return null;
        }

        sound.Add(hash);
        return content;
    }

    private T? Read<T>(DocumentFormat<T> format, ReadOnlyMemory<byte> content, string place)
        where T : class
    {
        if (
            !CanonicalJson.Canonicalise(content.Span).TryGet(out var document, out var refusal)
            || !document.Bytes.Span.SequenceEqual(content.Span)
        )
        {
            Tell(
                LedgerFaultCode.Content,
                place,
                refusal?.ToString() ?? "its content is not in canonical form"
            );
            return null;
        }

        if (!format.Read(content).TryGet(out var value, out var problems))
        {
            Tell(LedgerFaultCode.Content, place, $"its content is no {format.Name}: {problems.Told[0]}");
            return null;
        }

        return value;
    }

    private void Same(string found, string expected, string what, string place)
    {
        if (!string.Equals(found, expected, StringComparison.Ordinal))
        {
            Tell(
                LedgerFaultCode.Content,
                place,
                $"its content speaks of the {what} `{found}`, the entry of `{expected}`"
            );
        }
    }

    private void Tell(string code, string where, string what) => faults.Add(new(code, where, what));
}
