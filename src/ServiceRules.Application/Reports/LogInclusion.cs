using System.Collections.Immutable;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Domain.Records;
using ServiceRules.Evidence;
using ServiceRules.Evidence.Log;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Reports;

/// <summary>
/// Whether record and assessment of a report stand in the log that it names: entries about these very documents, under
/// a checkpoint that the log's key signed. The key comes with the report, vouched for by the organisation's signature;
/// whoever knows it from elsewhere holds it against that.
/// </summary>
internal sealed class LogInclusion
{
    private readonly ReadOnlyMemory<byte> report;
    private readonly EvidenceFiles evidence;
    private readonly ServiceRecord record;
    private readonly FilingProofs proofs;
    private readonly FiledIn filed;
    private readonly LogDemand demand;
    private readonly List<string> told = [];

    private string Subject => record.Id.Text;

    private LogInclusion(
        ReadOnlyMemory<byte> report,
        Assessed attached,
        FilingProofs proofs,
        FiledIn filed,
        LogDemand demand
    )
    {
        this.report = report;
        evidence = attached.Evidence;
        record = attached.Record;
        this.proofs = proofs;
        this.filed = filed;
        this.demand = demand;
    }

    /// <summary>Of a report that carries no proofs.</summary>
    public static ReportPoint OfNotFiled(LogDemand demand) =>
        demand.NeedsLog
            ? ReportPoint.Failed(
                VerifyReport.Filed,
                "the report was not filed in a log, and one is asked for"
            )
            : new ReportPoint(
                VerifyReport.Filed,
                PointResult.NotClaimed,
                "the report says that it was not filed in a log"
            );

    public static ReportPoint Of(
        ReadOnlyMemory<byte> report,
        Assessed attached,
        FilingProofs proofs,
        LogDemand demand
    )
    {
        var (filed, unread) = FiledIn.Read(proofs);
        if (filed is null)
        {
            return ReportPoint.Failed(VerifyReport.Filed, unread!);
        }

        return new LogInclusion(report, attached, proofs, filed, demand).Point();
    }

    private ReportPoint Point()
    {
        if (Fault() is { } fault)
        {
            return ReportPoint.Failed(VerifyReport.Filed, fault);
        }

        ImmutableArray<LogFinding> found = [.. LogBeside.Findings(report, evidence, filed, demand)];
        var worst =
            found.Any(one => one.Result is PointResult.Failed) ? PointResult.Failed
            : found.Any(one => one.Result is PointResult.NotEstablished) ? PointResult.NotEstablished
            : PointResult.Passed;
        return new ReportPoint(
            VerifyReport.Filed,
            worst,
            worst is PointResult.Passed
                ? string.Join("; ", told.Concat(found.Select(one => one.Told)))
                : string.Join("; ", found.Where(one => one.Result == worst).Select(one => one.Told))
        );
    }

    private string? Fault() =>
        SignedFault()
        ?? KeyFault()
        ?? EntryFault(
            FilingProofs.RecordEntryName,
            proofs.RecordEntry,
            proofs.RecordProof,
            [EntryKind.Record, EntryKind.Amendment],
            evidence.Record.Bytes,
            null
        )
        ?? EntryFault(
            FilingProofs.AssessmentEntryName,
            proofs.AssessmentEntry,
            proofs.AssessmentProof,
            [EntryKind.Assessment],
            evidence.Assessment.Bytes,
            evidence.Record.Hash.ToString()
        )
        ?? SenderFault()
        ?? NewerFault();

    /// <summary>That somebody is named in the record is only said of one that names somebody there.</summary>
    private string? SenderFault()
    {
        if (filed.Sender is not { } sender)
        {
            return null;
        }

        told.Add($"filed over the service {(sender.IsKey ? "with" : "by")} {sender.Name}");
        return sender.Place is { } place && PersonPlace.Read(record, place) is null
            ? $"{FilingProofs.RecordEntryName} says that the record names its sender at {place}, where it names nobody"
            : null;
    }

    private string? SignedFault()
    {
        var head = filed.Head;
        told.Add(
            FormattableString.Invariant(
                $"record and assessment are entries {filed.RecordIndex} and {filed.AssessmentIndex} of the log `{head.Origin}`, {head.Size} entries, root {head.Root}"
            )
        );
        if (filed.Amends is { } amends)
        {
            told.Add(
                FormattableString.Invariant($"the record amends entry {amends.Corrects} ({amends.Reason})")
            );
        }

        return
            IsSigned(proofs.RecordProof)
            && IsSigned(proofs.AssessmentProof)
            && (proofs.Newer is not { } newer || IsSigned(newer.Proof))
            ? null
            : $"the checkpoint of the proofs is not signed by the log's key {filed.Key.IdText}";
    }

    /// <summary>That a newer version stood in the log when the report was issued is only said of one that did.</summary>
    private string? NewerFault()
    {
        const string Name = FilingProofs.NewerEntryName;
        if (proofs.Newer is not { } newer)
        {
            return null;
        }

        if (FiledIn.Parse(FilingProofs.NewerProofName, newer.Proof) is not ({ } proof, _))
        {
            return $"{FilingProofs.NewerProofName} cannot be read";
        }

        if (!EntryReading.TryRead(new StoredEntry(proof.Index, newer.Entry), out var entry, out var why))
        {
            return $"{Name}: {why}";
        }

        told.Add(
            FormattableString.Invariant(
                $"superseded: entry {proof.Index} held a newer version of the record when the report was issued"
            )
        );
        return entry.Entry.Kind is not (EntryKind.Record or EntryKind.Amendment)
            || entry.Entry.Subject != Subject
            || proof.Index <= filed.RecordIndex
                ? $"{Name} is of no newer version of `{Subject}`"
            : !proof.Proves(MerkleTree.LeafHash(newer.Entry.Span))
                ? $"{Name} does not stand at place {proof.Index} of the log that the checkpoint tells"
            : null;
    }

    private bool IsSigned(string proof) =>
        FiledIn.Parse("", proof).Proof is { } parsed && parsed.Checkpoint.IsSignedBy(filed.Key);

    private string? KeyFault()
    {
        if (demand.Key is not { } given)
        {
            told.Add($"log key {filed.Key.IdText} as the report carries it");
            return null;
        }

        told.Add($"log key {filed.Key.IdText} as given");
        return given.Is(filed.Key)
            ? null
            : $"the log key given ({given}) is not the one of this report (of `{filed.Head.Origin}`, id {filed.Key.IdText})";
    }

    private string? EntryFault(
        string name,
        ReadOnlyMemory<byte> bytes,
        string proofText,
        EntryKind[] kinds,
        ReadOnlyMemory<byte> content,
        string? of
    )
    {
        var (proof, unread) = FiledIn.Parse(name, proofText);
        if (proof is null)
        {
            return unread;
        }

        if (!EntryReading.TryRead(new StoredEntry(proof.Index, bytes), out var entry, out var why))
        {
            return $"{name}: {why}";
        }

        var read = entry.Entry;
        var expected = ContentHash.Of(content.Span).ToString();
        return !kinds.Contains(read.Kind) ? $"{name} is an entry of another kind"
            : read.Content != expected || read.ContentBytes != content.Length
                ? $"{name} is about other bytes than these"
            : read.Subject != Subject ? $"{name} is about `{read.Subject}`, the report about `{Subject}`"
            : read.Of != of ? $"{name} names another document as what it speaks of"
            : !proof.Proves(MerkleTree.LeafHash(bytes.Span))
                ? $"{name} does not stand at place {proof.Index} of the log that the checkpoint tells"
            : null;
    }
}
