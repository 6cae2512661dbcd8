using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;
using ServiceRules.Application.Assessing;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Engine;
using ServiceRules.Evidence;
using ServiceRules.Formats.Json;
using ServiceRules.Formats.Packs;
using ServiceRules.Formats.Records;
using ServiceRules.Formats.Registers;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Reports;

/// <summary>
/// Says whether a report is genuine and complete: its bytes and signature, then that the verdict follows again from
/// the record, context and rules it carries. Needs nothing but the file and the certificates trusted here.
/// </summary>
public sealed class VerifyReport(IReportReader reader, Judge judge)
{
    /// <summary>What a reader of signed files calls the point whether the signer is trusted here.</summary>
    public const string Trust = "trust";

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
                [new ReportPoint("file", false, "this is not a PDF file")],
                null,
                null
            );
        }

        var signed = reader.Read(file);
        var points = ImmutableArray.CreateBuilder<ReportPoint>();
        points.AddRange(signed.Points);
        points.AddRange(signed.IsIntact ? Content(signed.Attachments) : NotReached());
        return new VerifiedReport(StandingBy(points), points.ToImmutable(), signed.Signer, signed.SignedAt);
    }

    private static ReportStanding StandingBy(IEnumerable<ReportPoint> points)
    {
        var wanting = points.Where(point => point.Passed is not true).Select(point => point.Name).ToList();
        return wanting switch
        {
            [] => ReportStanding.Genuine,
            [Trust] => ReportStanding.SignerNotTrusted,
            _ => ReportStanding.NotGenuine,
        };
    }

    private static IEnumerable<ReportPoint> NotReached() =>
        [
            new("evidence-complete", null, "not looked at: the file is not intact"),
            new("verdict-reproduced", null, "not looked at: the file is not intact"),
        ];

    private IEnumerable<ReportPoint> Content(IReadOnlyDictionary<string, byte[]> files)
    {
        var names = files.Keys.Order(StringComparer.Ordinal).ToArray();
        if (!names.SequenceEqual(Expected, StringComparer.Ordinal))
        {
            yield return new(
                "evidence-complete",
                false,
                $"the file carries {(names.Length == 0 ? "nothing" : string.Join(", ", names))}; a report carries {string.Join(", ", Expected)}"
            );
            yield return new("verdict-reproduced", null, "not looked at: the evidence is not complete");
            yield break;
        }

        yield return new(
            "evidence-complete",
            true,
            "record, context, rules and assessment are attached and covered by the signature"
        );
        yield return Reproduced(files);
    }

    private ReportPoint Reproduced(IReadOnlyDictionary<string, byte[]> files)
    {
        ReportPoint Failed(string why) => new("verdict-reproduced", false, why);
        if (!TryRead(files, EvidenceFiles.RecordName, RecordFormat.Current, out var record, out var why))
        {
            return Failed(why);
        }

        if (!TryRead(files, EvidenceFiles.ContextName, ContextFormat.Current, out var context, out why))
        {
            return Failed(why);
        }

        if (!TryRead(files, EvidenceFiles.RulesName, RulePackFormat.Book, out var book, out why))
        {
            return Failed(why);
        }

        return Compare(record, context, book, files[EvidenceFiles.AssessmentName]);
    }

    private ReportPoint Compare(
        (ServiceRecord, CanonicalDocument) record,
        (AssessmentContext, CanonicalDocument) context,
        (RuleBook Value, CanonicalDocument) book,
        byte[] attached
    )
    {
        if (record.Item1.Units.FirstOrDefault(unit => book.Value.Sheet(unit.Sheet) is null) is { } lost)
        {
            return new(
                "verdict-reproduced",
                false,
                $"the attached rules lack the limit sheet `{lost.Sheet}`"
            );
        }

        try
        {
            var again = judge.Decide(record, context, book);
            return again.Evidence.Assessment.Bytes.Span.SequenceEqual(attached)
                ? new(
                    "verdict-reproduced",
                    true,
                    "judging the attached record again gives the same assessment, byte for byte"
                )
                : new(
                    "verdict-reproduced",
                    false,
                    "judging the attached record again gives another assessment than the attached one"
                );
        }
        catch (EngineFaultException)
        {
            return new(
                "verdict-reproduced",
                false,
                "the attached record could not be judged again by the attached rules"
            );
        }
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
