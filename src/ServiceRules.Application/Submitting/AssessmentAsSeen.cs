using System.Text.Json;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Evidence;
using ServiceRules.Formats.Assessments;

namespace ServiceRules.Application.Submitting;

/// <summary>
/// What of an assessment is told to somebody who may not see every other record that it took into account. Verdicts and dispositions
/// stay. What a finding says is kept back wherever it would say something else if only the records that may be seen were known: so
/// that nothing of the others is in what is told, whichever way a rule puts it.
/// </summary>
/// <param name="Bytes">The assessment as it may be told; null where that cannot be made out any more.</param>
/// <param name="Others">What was taken into account, of records that may be seen; null where that is no longer kept.</param>
/// <param name="HiddenOthers">How many more there are, records and stays elsewhere together, that may not be seen.</param>
/// <param name="Withheld">Of how many findings it is kept back what they say.</param>
public sealed record AssessmentAsSeen(
    ReadOnlyMemory<byte>? Bytes,
    AssessmentOthers? Others,
    int HiddenOthers,
    int Withheld
)
{
    /// <summary>Of what was just judged.</summary>
    /// <param name="judging">Judges again, by the same rules.</param>
    /// <param name="assessed">What was judged.</param>
    /// <param name="onlooker">Who is told.</param>
    public static AssessmentAsSeen Of(AssessRecord judging, Assessed assessed, Onlooker onlooker)
    {
        ArgumentNullException.ThrowIfNull(judging);
        ArgumentNullException.ThrowIfNull(assessed);
        var all = new AssessmentOthers(assessed.Context.OtherRecords, assessed.Context.Elsewhere);
        var (seen, hidden) = Part(all, onlooker);
        return hidden == 0
            ? new(assessed.Evidence.Assessment.Bytes, all, 0, 0)
            : Without(judging, assessed, (all, seen), hidden);
    }

    /// <summary>Of what is stored.</summary>
    /// <param name="judging">Judges again, by the rules that judged it.</param>
    /// <param name="log">The log.</param>
    /// <param name="assessment">The entry of the assessment.</param>
    /// <param name="onlooker">Who is told.</param>
    /// <exception cref="LedgerStoreException">Something of it is gone, or other bytes now, and no erasure removed it.</exception>
    public static AssessmentAsSeen Of(
        AssessRecord judging,
        ILedgerReading log,
        FiledEntry assessment,
        Onlooker onlooker
    )
    {
        ArgumentNullException.ThrowIfNull(judging);
        ArgumentNullException.ThrowIfNull(log);
        ArgumentNullException.ThrowIfNull(assessment);
        if (
            AssessmentOthers.Of(log, assessment) is not { } all
            || log.Kept(assessment.Entry.Content) is not { } bytes
        )
        {
            return new(null, null, 0, 0);
        }

        var (seen, hidden) = Part(all, onlooker);
        if (hidden == 0)
        {
            return new(bytes, all, 0, 0);
        }

        return
            AssessmentFormat.SemanticsOf(bytes.Span) == Assessment.SemanticsVersion
            && AssessmentFormat.Current.Read(bytes).TryGet(out var read, out _)
            && log.Kept(read.Digests.Record) is { } record
            && FiledAssessed.Read(log, record, (read, bytes), judging.BookOf) is { } stood
            ? Without(judging, stood, (all, seen), hidden)
            : new(null, seen, hidden, 0);
    }

    private static AssessmentAsSeen Without(
        AssessRecord judging,
        Assessed assessed,
        (AssessmentOthers All, AssessmentOthers Seen) others,
        int hidden
    )
    {
        var known = judging.Again(
            assessed,
            ContextFreezer.Without(
                assessed.Context,
                assessed.Record,
                others.Seen.Elsewhere,
                others.Seen.Records
            )
        );
        var said = Findings(known.Evidence.Assessment).ToHashSet(StringComparer.Ordinal);
        var words = Words(others.All, others.Seen);
        var withheld = 0;
        var told = assessed.Assessment with
        {
            Findings =
            [
                .. assessed
                    .Assessment.Findings.Zip(Findings(assessed.Evidence.Assessment))
                    .Select(pair => said.Contains(pair.Second) ? pair.First : Keep(pair.First)),
            ],
        };
        return new(
            CanonicalForm.Of(AssessmentFormat.Current.Write(told)).Bytes,
            others.Seen,
            hidden,
            withheld
        );

        Finding Keep(Finding finding)
        {
            withheld++;
            return finding with
            {
                Statement = words,
                Comparisons = [],
                Evidence = [],
                Remedy = null,
                StillToDo = [],
                LetOut = null,
                Notices = [],
            };
        }
    }

    // As they are written, in their order.
    private static List<string> Findings(CanonicalDocument assessment)
    {
        using var document = JsonDocument.Parse(assessment.Bytes);
        return document.RootElement.TryGetProperty("findings", out var findings)
            ? [.. findings.EnumerateArray().Select(finding => finding.GetRawText())]
            : [];
    }

    private static (AssessmentOthers Seen, int Hidden) Part(AssessmentOthers all, Onlooker onlooker)
    {
        var seen = new AssessmentOthers(
            [.. all.Records.Where(other => onlooker.Sees(other.Record.Text))],
            [.. all.Elsewhere.Where(onlooker.Sees)]
        );
        return (
            seen,
            all.Records.Length - seen.Records.Length + all.Elsewhere.Length - seen.Elsewhere.Length
        );
    }

    private static string Words(AssessmentOthers all, AssessmentOthers seen)
    {
        var hidden = all.Elsewhere.Except(seen.Elsewhere).ToList();
        string?[] what =
        [
            all.Records.Length > seen.Records.Length ? "the machine" : null,
            hidden.Any(one => one is LockElsewhere) ? "a lock of this job" : null,
            hidden.Any(one => one is PersonElsewhere) ? "a person of this job" : null,
        ];
        return $"What another record shows of {string.Join(" or of ", what.OfType<string>())} bears on this. "
            + "That record is not shown to whoever asks; a lead can see it.";
    }
}
