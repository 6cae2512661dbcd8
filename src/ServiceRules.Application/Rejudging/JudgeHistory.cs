using System.Diagnostics.CodeAnalysis;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Rows;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Evidence;
using ServiceRules.Formats.Assessments;
using ServiceRules.Formats.Json;
using ServiceRules.Formats.Records;
using ServiceRules.Formats.Registers;

namespace ServiceRules.Application.Rejudging;

/// <summary>
/// Judges stored records by the rules in force, each with the context that was frozen for its newest assessment: nothing is other
/// than before but the rules.
/// </summary>
/// <param name="judging">Judges, by the rules in force. Of its registers nothing is asked.</param>
/// <param name="defect">Told of what judging a record, by its place in the log, broke off with.</param>
internal sealed class JudgeHistory(AssessRecord judging, Action<long, Exception> defect)
{
    private const int WhyMost = 400;

    public CanonicalDocument Rules => judging.Rules.Document;

    /// <summary>What one record comes to; it never breaks off for what stands in the record.</summary>
    /// <exception cref="LedgerStoreException">The store cannot be read now.</exception>
    [SuppressMessage(
        "Design",
        "CA1031",
        Justification = "A defect that one record meets must not keep the others from being judged; it is counted and told."
    )]
    public LookedAt Look(ILedgerReading log, RecordRow row)
    {
        try
        {
            return Judged(log, row);
        }
        catch (LedgerStoreException damaged) when (damaged.Trouble is StoreTrouble.Damaged)
        {
            defect(row.Index, damaged);
            return new LookedAt.Failed(row, "what is kept of it is damaged");
        }
        catch (Exception failure) when (failure is not LedgerStoreException)
        {
            defect(row.Index, failure);
            return new LookedAt.Failed(
                row,
                "judging it broke off by a defect of this version; the log of the service tells more"
            );
        }
    }

    private LookedAt Judged(ILedgerReading log, RecordRow row)
    {
        var rules = judging.Rules.Document.Hash.ToString();
        if (row.AssessmentHash is not { } judged)
        {
            return new LookedAt.Failed(row, "its assessment is no longer kept");
        }

        if (log.Sound(judged) is not { } stood)
        {
            return NotKept(log, row, "its assessment", judged);
        }

        if (AssessmentFormat.DigestsOf(stood.Span) is not { } digests)
        {
            return new LookedAt.Failed(row, "its assessment cannot be read");
        }

        // What another version of the semantics judged cannot be compared, and is judged anew whatever comes of it.
        var isComparable = AssessmentFormat.SemanticsOf(stood.Span) == Assessment.SemanticsVersion;
        if (isComparable && digests.Packs == rules)
        {
            return new LookedAt.Passed(row);
        }

        if (log.Sound(row.RecordHash) is not { } bytes)
        {
            return NotKept(log, row, "its content", row.RecordHash);
        }

        if (log.Sound(digests.Context) is not { } frozen)
        {
            return NotKept(log, row, "the registers that it was judged with", digests.Context);
        }

        if (!RecordFormat.Current.Read(bytes).TryGet(out var record, out var source, out var problems))
        {
            return new LookedAt.Failed(row, Shortened($"it cannot be read: {Named(problems.Told[0])}"));
        }

        if (!ContextFormat.Current.Read(frozen).TryGet(out var context, out _))
        {
            return new LookedAt.Failed(row, "the registers that it was judged with cannot be read");
        }

        var lacking = RecordReferences.Check(record, source, judging.Rules.Value);
        if (!lacking.IsEmpty)
        {
            return new LookedAt.Failed(
                row,
                Shortened($"these rules lack what it names: {Named(lacking.Told[0])}")
            );
        }

        Assessment? before = null;
        if (isComparable && !AssessmentFormat.Current.Read(stood).TryGet(out before, out _))
        {
            return new LookedAt.Failed(row, "its assessment cannot be read");
        }

        var again = judging.ByTheseRules(
            (record, CanonicalForm.Of(bytes.Span)),
            (context, CanonicalForm.Of(frozen.Span))
        );
        return before is not null && IsSame(before, again.Assessment)
            ? new LookedAt.Unchanged(row)
            : new LookedAt.Turned(row, again);
    }

    private static LookedAt.Failed NotKept(ILedgerReading log, RecordRow row, string what, string digest) =>
        new(
            row,
            ContentHash.TryParse(digest, out var hash) && log.Content(hash) is not null
                ? $"{what}: damaged"
                : $"{what}: no longer kept"
        );

    /// <summary>Whether verdicts, dispositions and what to do come out the same; how it is said may be other.</summary>
    private static bool IsSame(Assessment before, Assessment now) =>
        AssessmentFormat
            .Current.Write(Essence(before, before.Digests))
            .AsSpan()
            .SequenceEqual(AssessmentFormat.Current.Write(Essence(now, before.Digests)));

    // A rule that came or went and never applied to the record changes nothing of it.
    private static Assessment Essence(Assessment assessment, AssessmentDigests digests) =>
        assessment with
        {
            Digests = digests,
            Findings =
            [
                .. assessment
                    .Findings.Where(finding => finding.Verdict is not Verdict.NotApplicable)
                    .Select(finding =>
                        finding with
                        {
                            Statement = "",
                            Comparisons = [],
                            Evidence = [],
                            Notices = [],
                        }
                    ),
            ],
        };

    // Without what was found there: it is kept after the content was erased.
    private static string Named(Problem problem) => $"{problem.Pointer}: {problem.What}";

    private static string Shortened(string text) => text.Length > WhyMost ? text[..WhyMost] : text;
}
