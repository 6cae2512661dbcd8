using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Reports;
using ServiceRules.Domain.Site;
using ServiceRules.Evidence;
using ServiceRules.Formats.Json;
using ServiceRules.Formats.Packs;
using ServiceRules.Formats.Records;
using ServiceRules.Formats.Registers;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Filed;

/// <summary>Reads one file at a time: a record, or a signed report with the record, context and rules that it carries.</summary>
internal sealed class FileReading(IReportReader reports, RuleBook inForce)
{
    // Reports of one year carry the same rules; compiling them once is enough.
    private readonly Dictionary<ContentHash, RuleBook> books = [];

    public bool TryRead(
        string file,
        [NotNullWhen(true)] out FiledRecord? filed,
        [NotNullWhen(false)] out FiledProblem? problem
    )
    {
        var isReport = file.EndsWith(".pdf", StringComparison.OrdinalIgnoreCase);
        var limit = isReport ? FilingLimits.ReportBytes : ReadLimits.Record.Bytes;
        filed = null;
        if (!TryBytes(file, limit, out var bytes, out var why))
        {
            problem = new(file, [why]);
            return false;
        }

        var lines = isReport ? Report(file, bytes, out filed) : Alone(file, bytes, out filed);
        problem = filed is null ? new(file, lines) : null;
        return filed is not null;
    }

    private ImmutableArray<string> Alone(string file, byte[] bytes, out FiledRecord? filed)
    {
        filed = null;
        var lines = Record(file, bytes, inForce, out var record);
        if (record is null)
        {
            return lines;
        }

        var beside = ContextFile.Beside(file);
        if (!File.Exists(beside))
        {
            filed = record;
            return [];
        }

        if (!TryBytes(beside, ReadLimits.Library.Bytes, out var context, out var why))
        {
            return [why];
        }

        if (!ContextFormat.Current.Read(context).TryGet(out var frozen, out var problems))
        {
            return [.. problems.Lines().Select(line => $"{Path.GetFileName(beside)}: {line}")];
        }

        filed = record with { Context = frozen };
        return [];
    }

    private ImmutableArray<string> Report(string file, byte[] bytes, out FiledRecord? filed)
    {
        filed = null;
        var signed = reports.Read(bytes);
        if (!signed.IsIntact)
        {
            return
            [
                .. signed
                    .Points.Where(point => point.Result == PointResult.Failed)
                    .Select(point => $"not an intact signed report: {point.Name}: {point.Told}"),
            ];
        }

        var parts = new[] { EvidenceFiles.RecordName, EvidenceFiles.ContextName, EvidenceFiles.RulesName };
        if (parts.Where(part => !signed.Attachments.ContainsKey(part)).ToList() is { Count: > 0 } missing)
        {
            return [$"the report does not carry {string.Join(", ", missing)}"];
        }

        return Carried(file, signed.Attachments, out filed);
    }

    private ImmutableArray<string> Carried(
        string file,
        IReadOnlyDictionary<string, byte[]> parts,
        out FiledRecord? filed
    )
    {
        filed = null;
        var rules = parts[EvidenceFiles.RulesName];
        var hash = ContentHash.Of(rules);
        if (!books.TryGetValue(hash, out var book))
        {
            if (!RulePackFormat.Book.Read(rules).TryGet(out book, out var wrong))
            {
                return [.. wrong.Lines().Select(line => $"{EvidenceFiles.RulesName}: {line}")];
            }

            books.Add(hash, book);
        }

        if (
            !ContextFormat
                .Current.Read(parts[EvidenceFiles.ContextName])
                .TryGet(out AssessmentContext? context, out var problems)
        )
        {
            return [.. problems.Lines().Select(line => $"{EvidenceFiles.ContextName}: {line}")];
        }

        var lines = Record(file, parts[EvidenceFiles.RecordName], book, out var record);
        filed = record is null ? null : record with { Context = context, Book = book };
        return [.. lines.Select(line => $"{EvidenceFiles.RecordName}: {line}")];
    }

    private static ImmutableArray<string> Record(
        string file,
        byte[] bytes,
        RuleBook book,
        out FiledRecord? filed
    )
    {
        filed = null;
        var read = RecordFormat.Current.Read(bytes);
        if (!read.TryGet(out var record, out var source, out var problems))
        {
            return [.. problems.Lines()];
        }

        var dangling = RecordReferences.Check(record, source, book);
        if (!dangling.IsEmpty)
        {
            return [.. dangling.Lines()];
        }

        filed = new(file, record, CanonicalForm.Of(bytes), null, null);
        return [];
    }

    private static bool TryBytes(
        string file,
        int limit,
        out byte[] bytes,
        [NotNullWhen(false)] out string? why
    )
    {
        bytes = [];
        why = null;
        try
        {
            if (!RegularFile.Is(file))
            {
                why = "is no file, or one with nothing in it; accepted: a service record or a signed report";
                return false;
            }

            using var stream = new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.Read);
            var wanted = (int)Math.Min(stream.CanSeek ? stream.Length : limit + 1L, limit + 1L);
            bytes = new byte[wanted];
            var count = stream.ReadAtLeast(bytes, wanted, throwOnEndOfStream: false);
            bytes = count == wanted ? bytes : bytes[..count];
            return true;
        }
        catch (Exception wrong)
            when (wrong is IOException or UnauthorizedAccessException or ArgumentException)
        {
            why = $"cannot be read: {wrong.Message}";
            return false;
        }
    }
}
