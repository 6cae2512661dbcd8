using ServiceRules.Application.Assessing;
using ServiceRules.Application.Rows;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Evidence;
using ServiceRules.Formats.Assessments;
using ServiceRules.Formats.Packs;
using ServiceRules.Formats.Records;
using ServiceRules.Formats.Registers;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Ledger;

/// <summary>Reads a record with all that judged it out of the log, as it was filed: nothing is judged anew.</summary>
internal static class FiledAssessed
{
    /// <summary>
    /// The version of a row with its newest assessment; null where something of it is no longer kept, or was judged by another
    /// version of the verdict semantics.
    /// </summary>
    public static Assessed? Read(
        ILedgerReading log,
        RecordRow row,
        Func<string, (RuleBook Value, CanonicalDocument Document)?> known
    ) =>
        log.Sound(row.RecordHash) is { } record
        && row.AssessmentHash is { } digest
        && log.Sound(digest) is { } assessment
        && AssessmentFormat.SemanticsOf(assessment.Span) == Assessment.SemanticsVersion
        && AssessmentFormat.Current.Read(assessment).TryGet(out var read, out _)
            ? Read(log, record, (read, assessment), known)
            : null;

    /// <param name="log">The log.</param>
    /// <param name="record">The record.</param>
    /// <param name="judged">Its assessment, read and as it is kept.</param>
    /// <param name="known">Rules that need not be read, by their digest.</param>
    public static Assessed? Read(
        ILedgerReading log,
        ReadOnlyMemory<byte> record,
        (Assessment Value, ReadOnlyMemory<byte> Bytes) judged,
        Func<string, (RuleBook Value, CanonicalDocument Document)?> known
    )
    {
        if (
            log.Sound(judged.Value.Digests.Context) is not { } context
            || (known(judged.Value.Digests.Packs) ?? Book(log, judged.Value.Digests.Packs)) is not { } book
            || !RecordFormat.Current.Read(record).TryGet(out var readRecord, out _)
            || !ContextFormat.Current.Read(context).TryGet(out var readContext, out _)
        )
        {
            return null;
        }

        return new Assessed(
            readRecord,
            readContext,
            book.Value,
            judged.Value,
            new EvidenceFiles(
                CanonicalForm.Of(record.Span),
                CanonicalForm.Of(context.Span),
                book.Document,
                CanonicalForm.Of(judged.Bytes.Span)
            )
        );
    }

    /// <summary>Packs and sheets that judged a stored record.</summary>
    public static (RuleBook Value, CanonicalDocument Document)? Book(ILedgerReading log, string digest) =>
        log.Sound(digest) is { } bytes && RulePackFormat.Book.Read(bytes).TryGet(out var book, out _)
            ? (book, CanonicalForm.Of(bytes.Span))
            : null;
}
