using System.Diagnostics.CodeAnalysis;
using ServiceRules.Application.Assessing;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Evidence;
using ServiceRules.Formats.Assessments;
using ServiceRules.Formats.Json;
using ServiceRules.Formats.Packs;
using ServiceRules.Formats.Records;
using ServiceRules.Formats.Registers;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Reports;

/// <summary>The documents attached to a report, read.</summary>
internal sealed record AttachedEvidence(
    (ServiceRecord Value, CanonicalDocument Document) Record,
    (AssessmentContext Value, CanonicalDocument Document) Context,
    (RuleBook Value, CanonicalDocument Document) Book
)
{
    public static (AttachedEvidence? Evidence, string? Fault) Read(IReadOnlyDictionary<string, byte[]> files)
    {
        if (!TryRead(files, EvidenceFiles.RecordName, RecordFormat.Current, out var record, out var why))
        {
            return (null, why);
        }

        if (!TryRead(files, EvidenceFiles.ContextName, ContextFormat.Current, out var context, out why))
        {
            return (null, why);
        }

        if (!TryRead(files, EvidenceFiles.RulesName, RulePackFormat.Book, out var book, out why))
        {
            return (null, why);
        }

        return record.Item1.Units.FirstOrDefault(unit => book.Item1.Sheet(unit.Sheet) is null) is { } lost
            ? (null, $"the attached rules lack the limit sheet `{lost.Sheet}`")
            : (new AttachedEvidence(record, context, book), null);
    }

    /// <summary>The four as one, with the attached assessment itself and not one made anew.</summary>
    public (Assessed? Assessed, string? Fault) With(IReadOnlyDictionary<string, byte[]> files)
    {
        if (
            !TryRead(
                files,
                EvidenceFiles.AssessmentName,
                AssessmentFormat.Current,
                out (Assessment Value, CanonicalDocument Document) assessment,
                out var why
            )
        )
        {
            return (null, why);
        }

        var evidence = new EvidenceFiles(
            Record.Document,
            Context.Document,
            Book.Document,
            assessment.Document
        );
        return (new Assessed(Record.Value, Context.Value, Book.Value, assessment.Value, evidence), null);
    }

    private static bool TryRead<T>(
        IReadOnlyDictionary<string, byte[]> files,
        string name,
        DocumentFormat<T> format,
        out (T, CanonicalDocument) read,
        [NotNullWhen(false)] out string? why
    )
        where T : notnull
    {
        var bytes = files[name];
        read = default;
        if (!CanonicalJson.Canonicalise(bytes).TryGet(out var document, out var refusal))
        {
            why = $"{name}: {refusal}";
            return false;
        }

        if (!document.Bytes.Span.SequenceEqual(bytes))
        {
            why = $"{name} is not in canonical form";
            return false;
        }

        if (!format.Read(bytes).TryGet(out var value, out var problems))
        {
            why = $"{name}: {problems.Told[0]}";
            return false;
        }

        read = (value, document);
        why = null;
        return true;
    }
}
