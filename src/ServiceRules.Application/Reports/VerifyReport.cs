using System.Collections.Immutable;
using ServiceRules.Application.Assessing;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Engine;
using ServiceRules.Formats.Assessments;

namespace ServiceRules.Application.Reports;

/// <summary>
/// Says whether a report is genuine and complete: its bytes and signature, that the verdict follows again from the
/// record, context and rules it carries, and that its pages show just that. Needs nothing but the file and the
/// certificates trusted here.
/// </summary>
public sealed class VerifyReport(IReportReader reader, Judge judge, IReportDrawing drawing)
{
    /// <summary>What a reader of signed files calls the point whether the signer is trusted here.</summary>
    public const string Trust = "trust";

    public const string Complete = "evidence-complete";
    public const string Reproduced = "verdict-reproduced";
    public const string Drawn = "drawn-content";

    private static ReadOnlySpan<byte> PdfStart => "%PDF-"u8;

    private static readonly string[] Expected =
    [
        EvidenceFiles.AssessmentName,
        EvidenceFiles.ContextName,
        EvidenceFiles.RecordName,
        EvidenceFiles.RulesName,
    ];

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
        points.AddRange(signed.Points);
        points.AddRange(
            signed.IsIntact
                ? Content(file, signed)
                : NotReached("the file is not intact", Complete, Reproduced, Drawn)
        );
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

    private static IEnumerable<ReportPoint> NotReached(string why, params string[] names) =>
        names.Select(name => new ReportPoint(name, PointResult.NotReached, $"not looked at: {why}"));

    private IEnumerable<ReportPoint> Content(ReadOnlyMemory<byte> file, SignedReport signed)
    {
        var files = signed.Attachments;
        var names = files.Keys.Order(StringComparer.Ordinal).ToArray();
        if (!names.SequenceEqual(Expected, StringComparer.Ordinal))
        {
            var carried = names.Length == 0 ? "nothing" : string.Join(", ", names);
            return
            [
                ReportPoint.Failed(
                    Complete,
                    $"the file carries {carried}; a report carries {string.Join(", ", Expected)}"
                ),
                .. NotReached("the evidence is not complete", Reproduced, Drawn),
            ];
        }

        var complete = ReportPoint.Passed(
            Complete,
            "record, context, rules and assessment are attached and covered by the signature"
        );
        var semantics = AssessmentFormat.SemanticsOf(files[EvidenceFiles.AssessmentName]);
        return semantics is { } other && other != Assessment.SemanticsVersion
            ? [complete, .. OfOtherSemantics(other)]
            : [complete, .. Judged(file, signed)];
    }

    private static IEnumerable<ReportPoint> OfOtherSemantics(string other)
    {
        foreach (var name in (string[])[Reproduced, Drawn])
        {
            yield return new ReportPoint(
                name,
                PointResult.NotEstablished,
                $"not established: the report was judged under version `{other}` of the verdict semantics; "
                    + $"this program knows version `{Assessment.SemanticsVersion}`"
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
                .. NotReached("the attached documents cannot be read", Drawn),
            ];
        }

        var (assessed, unread) = evidence.With(signed.Attachments);
        return
        [
            Again(evidence, signed.Attachments[EvidenceFiles.AssessmentName]),
            assessed is null
                ? ReportPoint.Failed(Drawn, $"cannot be drawn anew: {unread}")
                : drawing.HeldAgainst(file, signed, assessed),
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
