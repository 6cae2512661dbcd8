using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
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
    private readonly string subject;
    private readonly FilingProofs proofs;
    private readonly FiledIn filed;
    private readonly LogDemand demand;
    private readonly List<string> told = [];

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
        subject = attached.Record.Id.Text;
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

        var inclusion = new LogInclusion(report, attached, proofs, filed, demand);
        return inclusion.Fault() is { } fault
            ? ReportPoint.Failed(VerifyReport.Filed, fault)
            : ReportPoint.Passed(VerifyReport.Filed, string.Join("; ", inclusion.told));
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
        ?? OwnFault()
        ?? LaterFault();

    private string? SignedFault()
    {
        var head = filed.Head;
        told.Add(
            FormattableString.Invariant(
                $"record and assessment are entries {filed.RecordIndex} and {filed.AssessmentIndex} of the log `{head.Origin}`, {head.Size} entries, root {head.Root}"
            )
        );
        return IsSigned(proofs.RecordProof) && IsSigned(proofs.AssessmentProof)
            ? null
            : $"the checkpoint of the proofs is not signed by the log's key {filed.Key.IdText}";
    }

    private bool IsSigned(string proof) =>
        FiledIn.Parse("", proof).Proof is { } parsed && parsed.Checkpoint.IsSignedBy(filed.Key);

    private string? KeyFault()
    {
        if (demand.Key is not { } text)
        {
            told.Add($"log key {filed.Key.IdText} as the report carries it");
            return null;
        }

        var origin = filed.Head.Origin;
        LogTextFault? unread = null;
        if (
            !NoteKey.TryParse(text.Trim(), out var key, out _)
            && !NoteKey.TryFromPem(origin, text, out key, out unread)
        )
        {
            return $"the log key given cannot be used: {unread}";
        }

        told.Add($"log key {filed.Key.IdText} as given");
        return key == filed.Key
            ? null
            : $"the log key given ({key.Name}, {key.IdText}) is not the one of this report ({origin}, {filed.Key.IdText})";
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
            : read.Subject != subject ? $"{name} is about `{read.Subject}`, the report about `{subject}`"
            : read.Of != of ? $"{name} names another document as what it speaks of"
            : !proof.Proves(MerkleTree.LeafHash(bytes.Span))
                ? $"{name} does not stand at place {proof.Index} of the log that the checkpoint tells"
            : null;
    }

    /// <summary>The report's own entry, which can only be given beside it.</summary>
    private string? OwnFault()
    {
        if (demand.Proof is not { } bytes)
        {
            return null;
        }

        if (!TlogProof.TryParse(bytes.Span, out var proof, out var faults))
        {
            return $"the report's own proof: {faults[0]}";
        }

        if (proof.Extra is not { } entry)
        {
            return "the report's own proof does not bring its entry along (a line `extra`)";
        }

        if (proof.Checkpoint.Head.Origin != filed.Head.Origin || !proof.Checkpoint.IsSignedBy(filed.Key))
        {
            return $"the checkpoint in the report's own proof is not signed by the log's key {filed.Key.IdText}";
        }

        told.Add(
            FormattableString.Invariant(
                $"this file is entry {proof.Index}, of {proof.Checkpoint.Head.Size} entries by then"
            )
        );
        return EntryFault(
            "the report's own entry",
            entry,
            proof.ToString(),
            [EntryKind.Report],
            report,
            evidence.Assessment.Hash.ToString()
        );
    }

    private string? LaterFault()
    {
        if (demand.Checkpoint is not { } bytes)
        {
            return null;
        }

        if (!SignedCheckpoint.TryParse(bytes.Span, out var later, out var faults))
        {
            return $"the checkpoint given: {faults[0]}";
        }

        var (here, there) = (filed.Head, later.Head);
        if (there.Origin != here.Origin || !later.IsSignedBy(filed.Key))
        {
            return $"the checkpoint given is not one of the log `{here.Origin}`, or its key {filed.Key.IdText} did not sign it";
        }

        if (there.Size < here.Size)
        {
            return FormattableString.Invariant(
                $"the checkpoint given is of {there.Size} entries, the report's of {here.Size}; accepted: one of the same size or later"
            );
        }

        told.Add(
            FormattableString.Invariant(
                $"the log of the checkpoint given, {there.Size} entries, begins with it"
            )
        );
        return there.Size == here.Size
            ? there.Root == here.Root
                ? null
                : "the checkpoint given has another root at the same size"
            : demand.Growth is null
                ? "the checkpoint given is later; accepted: with the proof that the log only grew"
                : GrowthFault(demand.Growth.Value, here, there);
    }

    private static string? GrowthFault(ReadOnlyMemory<byte> bytes, Checkpoint here, Checkpoint there) =>
        !GrowthProof.TryParse(bytes.Span, out var growth, out var faults)
            ? $"the proof of growth: {faults[0]}"
        : growth.Proves(here, there) ? null
        : "the log of the checkpoint given does not begin with the log of this report: its history was rewritten";
}
