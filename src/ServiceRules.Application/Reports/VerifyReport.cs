using System.Collections.Immutable;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.SafeWork;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Engine;
using ServiceRules.Formats.Assessments;

namespace ServiceRules.Application.Reports;

/// <summary>
/// Says whether a report is genuine and complete: its bytes and signature, that the verdict follows again from the
/// record, context and rules it carries, and that its pages show just that. Needs nothing but the file and the
/// certificates trusted here.
/// </summary>
public sealed class VerifyReport(
    IReportReader reader,
    Judge judge,
    IReportDrawing drawing,
    ReportDemand? demand = null
)
{
    /// <summary>What a reader of signed files calls the point whether the signer is trusted here.</summary>
    public const string Trust = "trust";

    /// <summary>What a reader of signed files calls the point whether a time-stamp proves the time.</summary>
    public const string Timestamp = "timestamp";

    public const string Complete = "evidence-complete";
    public const string Reproduced = "verdict-reproduced";
    public const string Drawn = "drawn-content";
    public const string Filed = "log-inclusion";

    private static ReadOnlySpan<byte> PdfStart => "%PDF-"u8;

    private static readonly string[] Expected =
    [
        EvidenceFiles.AssessmentName,
        EvidenceFiles.ContextName,
        EvidenceFiles.RecordName,
        EvidenceFiles.RulesName,
    ];

    private static readonly string[] ExpectedWithLog =
    [
        .. Expected.Concat(AttachedProofs.Names).Order(StringComparer.Ordinal),
    ];

    private static readonly string[] ExpectedWithNewer =
    [
        .. Expected.Concat(AttachedProofs.NamesWithNewer).Order(StringComparer.Ordinal),
    ];

    private readonly ReportDemand demand = demand ?? ReportDemand.None;

    public VerifiedReport Verify(ReadOnlyMemory<byte> file)
    {
        if (!file.Span.StartsWith(PdfStart))
        {
            return new VerifiedReport(
                ReportStanding.Unreadable,
                [ReportPoint.Failed("file", "this is not a PDF file")],
                null,
                null
            );
        }

        var signed = reader.Read(file);
        var points = ImmutableArray.CreateBuilder<ReportPoint>();
        var content = signed.IsIntact
            ? Content(file, signed)
            : NotReached("the file is not intact", Complete, Reproduced, Drawn, Filed);
        points.AddRange(demand.On([.. signed.Points, .. content]));
        return new VerifiedReport(StandingBy(points), points.ToImmutable(), signed.Signer, signed.SignedAt)
        {
            TrustedTime = signed.TrustedTime,
        };
    }

    private static ReportStanding StandingBy(IReadOnlyCollection<ReportPoint> points)
    {
        var wanting = points
            .Where(point => point.Result is not (PointResult.Passed or PointResult.NotClaimed))
            .ToList();
        return wanting switch
        {
            [] => ReportStanding.Genuine,
            _ when wanting.Any(point => point.Name != Trust && point.Result != PointResult.NotEstablished) =>
                ReportStanding.NotGenuine,
            _ when wanting.Any(point => point.Name == Trust) => ReportStanding.SignerNotTrusted,
            _ => ReportStanding.NotEstablished,
        };
    }

    internal static IEnumerable<ReportPoint> NotReached(string why, params string[] names) =>
        names.Select(name => new ReportPoint(name, PointResult.NotReached, $"not looked at: {why}"));

    private IEnumerable<ReportPoint> Content(ReadOnlyMemory<byte> file, SignedReport signed)
    {
        var files = signed.Attachments;
        var names = files.Keys.Order(StringComparer.Ordinal).ToArray();
        if (VerifyPeriod.IsPeriod(names))
        {
            return new VerifyPeriod(judge, drawing, demand.Log).Content(file, signed);
        }

        if (
            !names.SequenceEqual(Expected, StringComparer.Ordinal)
            && !names.SequenceEqual(ExpectedWithLog, StringComparer.Ordinal)
            && !names.SequenceEqual(ExpectedWithNewer, StringComparer.Ordinal)
        )
        {
            var carried = names.Length == 0 ? "nothing" : string.Join(", ", names);
            return
            [
                ReportPoint.Failed(
                    Complete,
                    $"the file carries {carried}; a report carries {string.Join(", ", Expected)}, and when it was filed in a log {string.Join(", ", AttachedProofs.Names)}, and when it was superseded {FilingProofs.NewerEntryName}, {FilingProofs.NewerProofName}; one of a period carries {PeriodFiles.JobsName}, {PeriodFiles.RulesName}, {PeriodFiles.SummaryName}"
                ),
                .. NotReached("the evidence is not complete", Reproduced, Drawn, Filed),
            ];
        }

        var complete = ReportPoint.Passed(
            Complete,
            names.Length == Expected.Length
                ? "record, context, rules and assessment are attached and covered by the signature"
                : "record, context, rules and assessment, their log entries and proofs are attached and covered by the signature"
        );
        var semantics = AssessmentFormat.SemanticsOf(files[EvidenceFiles.AssessmentName]);
        return semantics is { } other && other != Assessment.SemanticsVersion
            ? [complete, .. OfOtherSemantics(other)]
            : [complete, .. Judged(file, signed)];
    }

    internal static IEnumerable<ReportPoint> OfOtherSemantics(string other)
    {
        foreach (var name in (string[])[Reproduced, Drawn, Filed])
        {
            yield return new ReportPoint(
                name,
                PointResult.NotEstablished,
                $"not established: the report was judged under version `{other}` of the verdict semantics; "
                    + $"this program knows version `{Assessment.SemanticsVersion}`; to establish it, verify with a version of this "
                    + $"program of verdict semantics `{other}` (docs/CHANGELOG.md tells which)"
            );
        }
    }

    private IEnumerable<ReportPoint> Judged(ReadOnlyMemory<byte> file, SignedReport signed)
    {
        var (evidence, fault) = AttachedEvidence.Read(signed.Attachments);
        if (evidence is null)
        {
            return
            [
                ReportPoint.Failed(Reproduced, fault!),
                .. NotReached("the attached documents cannot be read", Drawn, Filed),
            ];
        }

        var again = Again(evidence, signed.Attachments[EvidenceFiles.AssessmentName]);
        var (assessed, unread) = evidence.With(signed.Attachments);
        return assessed is null
            ?
            [
                again,
                ReportPoint.Failed(Drawn, $"cannot be drawn anew: {unread}"),
                .. NotReached("the attached assessment cannot be read", Filed),
            ]
            : [again, .. Shown(file, signed, assessed)];
    }

    private IEnumerable<ReportPoint> Shown(ReadOnlyMemory<byte> file, SignedReport signed, Assessed assessed)
    {
        var (proofs, unread) = AttachedProofs.Read(signed.Attachments);
        if (unread is not null)
        {
            return [.. NotReached("the proofs cannot be read", Drawn), ReportPoint.Failed(Filed, unread)];
        }

        return
        [
            drawing.HeldAgainst(file, signed, assessed, proofs),
            proofs is null
                ? LogInclusion.OfNotFiled(demand.Log)
                : LogInclusion.Of(file, assessed, proofs, demand.Log),
        ];
    }

    private ReportPoint Again(AttachedEvidence evidence, byte[] attached)
    {
        try
        {
            var again = judge.Decide(evidence.Record, evidence.Context, evidence.Book);
            return again.Evidence.Assessment.Bytes.Span.SequenceEqual(attached)
                ? ReportPoint.Passed(
                    Reproduced,
                    "judging the attached record again gives the same assessment, byte for byte"
                )
                : ReportPoint.Failed(
                    Reproduced,
                    "judging the attached record again gives another assessment than the attached one"
                );
        }
        catch (EngineFaultException)
        {
            return ReportPoint.Failed(
                Reproduced,
                "the attached record could not be judged again by the attached rules"
            );
        }
    }
}
