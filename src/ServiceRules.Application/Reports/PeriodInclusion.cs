using ServiceRules.Evidence;

namespace ServiceRules.Application.Reports;

/// <summary>
/// Whether the report of a period stands in a log. It carries no proof: only its own entry tells of it, which is given
/// beside it, with the log's key as its keeper gave it.
/// </summary>
internal static class PeriodInclusion
{
    public static ReportPoint Of(ReadOnlyMemory<byte> report, ReadOnlyMemory<byte> jobs, LogDemand demand)
    {
        var found = demand.Proof is { } proof ? OfProof(proof, report, jobs, demand) : OfNone(demand);
        return new ReportPoint(VerifyReport.Filed, found.Result, found.Told);
    }

    private static LogFinding OfNone(LogDemand demand) =>
        demand.NeedsLog
            ? LogFinding.Open(
                "not established: the report of a period carries no proof of the log; accepted: the proof that was written beside it (--proof)"
            )
            : new(PointResult.NotClaimed, "the report carries no proof that it was filed in a log");

    private static LogFinding OfProof(
        GivenReportProof proof,
        ReadOnlyMemory<byte> report,
        ReadOnlyMemory<byte> jobs,
        LogDemand demand
    )
    {
        var found = LogBeside.OfEntry(proof, report, ContentHash.Of(jobs.Span).ToString());
        if (found.Result is not PointResult.Passed)
        {
            return found;
        }

        var origin = proof.Checkpoint.Head.Origin;
        return demand.Checkpoint is not null
                ? LogFinding.Open(
                    "not established: a checkpoint is not held against the report of a period; accepted: its proof and the log's key alone"
                )
            : demand.Key is not { } key
                ? LogFinding.Open(
                    $"not established: {found.Told}, if `{origin}` signed that; accepted: the log's key as its keeper gave it (--log-key)"
                )
            : key.HasSigned(proof.Checkpoint)
                ? LogFinding.Good($"{found.Told}, in the log `{origin}`, log key as given")
            : LogFinding.Contradicted(
                $"the checkpoint of the proof given, of the log `{origin}`, is not signed by the log key given ({key})"
            );
    }
}
