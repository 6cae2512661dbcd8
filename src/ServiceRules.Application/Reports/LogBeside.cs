using ServiceRules.Application.Assessing;
using ServiceRules.Evidence;
using ServiceRules.Evidence.Log;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Reports;

/// <summary>
/// What proofs and checkpoints given beside a report say of it. Whoever checks may have picked the wrong file: one that
/// is about something else settles nothing. Only two heads that the log's key signed, and that cannot be of one log,
/// accuse.
/// </summary>
internal static class LogBeside
{
    private const string Rewritten = "the log's history was rewritten";

    public static IEnumerable<LogFinding> Findings(
        ReadOnlyMemory<byte> report,
        EvidenceFiles evidence,
        FiledIn filed,
        LogDemand demand
    )
    {
        if (demand.Proof is { } proof)
        {
            yield return OfProof(proof, report, evidence, filed);
        }

        if (demand.Checkpoint is { } checkpoint)
        {
            yield return OfCheckpoint(checkpoint, demand, filed);
        }
    }

    /// <summary>The report's own entry, which can only be given beside it.</summary>
    private static LogFinding OfProof(
        GivenReportProof proof,
        ReadOnlyMemory<byte> report,
        EvidenceFiles evidence,
        FiledIn filed
    )
    {
        const string Subject = "the proof given";
        if (NotOfThisLog(Subject, proof.Checkpoint, filed) is { } foreign)
        {
            return foreign;
        }

        if (Contradiction(Subject, proof.Checkpoint.Head, filed.Head) is { } contradiction)
        {
            return contradiction;
        }

        return OfEntry(proof, report, evidence.Assessment.Hash.ToString());
    }

    /// <summary>Whether a proof is of this very file, and of the document that it speaks of.</summary>
    internal static LogFinding OfEntry(GivenReportProof proof, ReadOnlyMemory<byte> report, string of)
    {
        const string Subject = "the proof given";
        var (entry, hash) = (proof.Entry, ContentHash.Of(report.Span).ToString());
        return entry.Kind is not EntryKind.Report
                ? LogFinding.Open(
                    FormattableString.Invariant(
                        $"{Subject} is of entry {proof.Index}, which is of no report: it settles nothing about this file; accepted: the proof that was written beside this report"
                    )
                )
            : entry.Content != hash || entry.ContentBytes != report.Length || entry.Of != of
                ? LogFinding.Open(
                    FormattableString.Invariant(
                        $"{Subject} is of entry {proof.Index}, about another file ({entry.Content}) than this one ({hash}): it settles nothing about this file; accepted: the proof that was written beside this report"
                    )
                )
            : !proof.Holds()
                ? LogFinding.Open(
                    FormattableString.Invariant(
                        $"{Subject} does not lead from entry {proof.Index} to the root of its checkpoint: it settles nothing"
                    )
                )
            : LogFinding.Good(
                FormattableString.Invariant(
                    $"this file is entry {proof.Index}, of {proof.Checkpoint.Head.Size} entries by then"
                )
            );
    }

    private static LogFinding OfCheckpoint(SignedCheckpoint later, LogDemand demand, FiledIn filed)
    {
        const string Subject = "the checkpoint given";
        if (NotOfThisLog(Subject, later, filed) is { } foreign)
        {
            return foreign;
        }

        var (here, there) = (filed.Head, later.Head);
        if (demand.Proof?.Checkpoint is { } own && own.IsSignedBy(filed.Key))
        {
            if (Contradiction("the checkpoint of the proof given", own.Head, there) is { } split)
            {
                return split;
            }
        }

        return Contradiction(Subject, there, here)
            ?? (
                there.Size < here.Size
                    ? LogFinding.Open(
                        FormattableString.Invariant(
                            $"{Subject} is of {there.Size} entries, the report's of {here.Size}: an earlier one settles nothing; accepted: one of the same size or later"
                        )
                    )
                : there.Size > here.Size ? OfGrowth(demand.Growth, here, there)
                : LogFinding.Good($"{Subject} is the report's own")
            );
    }

    private static LogFinding OfGrowth(GrowthProof? growth, Checkpoint here, Checkpoint there)
    {
        var accepted = FormattableString.Invariant(
            $"accepted: the proof that the log only grew from {here.Size} to {there.Size} entries, which its keeper makes (`ledger checkpoint --growth-from {here.Size}`)"
        );
        return growth is null
                ? LogFinding.Open(
                    FormattableString.Invariant(
                        $"the checkpoint given is later, of {there.Size} entries, and alone settles nothing; {accepted}"
                    )
                )
            : growth.OldSize != here.Size
                ? LogFinding.Open(
                    FormattableString.Invariant(
                        $"the proof of growth given begins at {growth.OldSize} entries, the report's checkpoint is of {here.Size}: it settles nothing; {accepted}"
                    )
                )
            : growth.Proves(here, there)
                ? LogFinding.Good(
                    FormattableString.Invariant(
                        $"the log of the checkpoint given, {there.Size} entries, begins with it"
                    )
                )
            : growth.Refutes(here, there)
                ? LogFinding.Contradicted(
                    FormattableString.Invariant(
                        $"the log of the checkpoint given had another root at {here.Size} entries than the report's checkpoint, and its key signed both: {Rewritten}"
                    )
                )
            : LogFinding.Open(
                $"the proof of growth given does not lead from the report's checkpoint to the one given: it is of another checkpoint, or {Rewritten}; {accepted}"
            );
    }

    private static LogFinding? NotOfThisLog(string subject, SignedCheckpoint checkpoint, FiledIn filed)
    {
        var (origin, own) = (checkpoint.Head.Origin, filed.Head.Origin);
        return origin != own
                ? LogFinding.Open(
                    $"{subject} is of the log `{origin}`, the report of `{own}`: it settles nothing about this report"
                )
            : !checkpoint.IsSignedBy(filed.Key)
                ? LogFinding.Open(
                    $"{subject} is not signed by the log's key {filed.Key.IdText}: it settles nothing about this report"
                )
            : null;
    }

    /// <summary>Two heads signed by one log.</summary>
    private static LogFinding? Contradiction(string subject, Checkpoint one, Checkpoint other) =>
        one.Size == other.Size && one.Root != other.Root
            ? LogFinding.Contradicted(
                FormattableString.Invariant(
                    $"{subject} has another root at {one.Size} entries than the report tells, and the log's key signed both: {Rewritten}"
                )
            )
            : null;
}
