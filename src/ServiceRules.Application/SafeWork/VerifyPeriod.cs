using System.Diagnostics.CodeAnalysis;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Reports;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Engine;
using ServiceRules.Evidence;
using ServiceRules.Formats.Assessments;
using ServiceRules.Formats.Packs;

namespace ServiceRules.Application.SafeWork;

/// <summary>
/// Says of the report of a period, once its bytes are intact, whether it is complete, whether judging its jobs again gives
/// its summary, and whether its pages show just that.
/// </summary>
internal sealed class VerifyPeriod(Judge judge, IReportDrawing drawing, LogDemand log)
{
    private static readonly string[] Expected =
    [
        PeriodFiles.JobsName,
        PeriodFiles.RulesName,
        PeriodFiles.SummaryName,
    ];

    /// <summary>Whether these attachments, in ordinal order, are those of a period.</summary>
    public static bool IsPeriod(IEnumerable<string> names) =>
        names.SequenceEqual(Expected, StringComparer.Ordinal);

    public IEnumerable<ReportPoint> Content(ReadOnlyMemory<byte> file, SignedReport signed)
    {
        var complete = ReportPoint.Passed(
            VerifyReport.Complete,
            "jobs, rules and summary are attached and covered by the signature"
        );
        var summary = signed.Attachments[PeriodFiles.SummaryName];
        return AssessmentFormat.SemanticsOf(summary) is { } other && other != Assessment.SemanticsVersion
            ? [complete, .. VerifyReport.OfOtherSemantics(other)]
            : [complete, .. Judged(file, signed, summary)];
    }

    private IEnumerable<ReportPoint> Judged(ReadOnlyMemory<byte> file, SignedReport signed, byte[] summary)
    {
        var filed = PeriodInclusion.Of(file, signed.Attachments[PeriodFiles.JobsName], log);
        if (!Again(signed.Attachments).TryGet(out var period, out var fault))
        {
            return
            [
                ReportPoint.Failed(VerifyReport.Reproduced, fault),
                .. VerifyReport.NotReached("the attached jobs could not be judged again", VerifyReport.Drawn),
                filed,
            ];
        }

        var count = period.Jobs.Length == 1 ? "the attached job" : $"the {period.Jobs.Length} attached jobs";
        return
        [
            period.Evidence.Summary.Bytes.Span.SequenceEqual(summary)
                ? ReportPoint.Passed(
                    VerifyReport.Reproduced,
                    $"judging {count} again gives the same summary, byte for byte"
                )
                : ReportPoint.Failed(
                    VerifyReport.Reproduced,
                    $"judging {count} again gives another summary than the attached one"
                ),
            drawing.HeldAgainst(file, signed, period),
            filed,
        ];
    }

    private PeriodOutcome Again(IReadOnlyDictionary<string, byte[]> files)
    {
        if (!TryCanonical(files, PeriodFiles.JobsName, out var jobs, out var fault))
        {
            return PeriodOutcome.Refused(fault);
        }

        if (!TryCanonical(files, PeriodFiles.RulesName, out var rules, out fault))
        {
            return PeriodOutcome.Refused(fault);
        }

        if (!RulePackFormat.Book.Read(rules.Bytes).TryGet(out var book, out var problems))
        {
            return PeriodOutcome.Refused($"{PeriodFiles.RulesName}: {problems.Told[0]}");
        }

        try
        {
            return new JudgePeriod(judge).Decide(jobs, (book, rules));
        }
        catch (EngineFaultException)
        {
            return PeriodOutcome.Refused("the attached jobs could not be judged again by the attached rules");
        }
    }

    private static bool TryCanonical(
        IReadOnlyDictionary<string, byte[]> files,
        string name,
        [NotNullWhen(true)] out CanonicalDocument? document,
        [NotNullWhen(false)] out string? fault
    )
    {
        var bytes = files[name];
        if (!CanonicalJson.Canonicalise(bytes).TryGet(out document, out var refusal))
        {
            fault = $"{name}: {refusal}";
            return false;
        }

        fault = document.Bytes.Span.SequenceEqual(bytes) ? null : $"{name} is not in canonical form";
        return fault is null;
    }
}
