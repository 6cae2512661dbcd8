using System.Collections.Immutable;
using System.Data.Common;
using ServiceRules.Application.Rejudging;

namespace ServiceRules.Storage.Sql;

/// <summary>One open transaction on what is to be judged again; the head of the log is locked in it.</summary>
internal sealed class SqlRejudgingWriting(DbConnection connection)
    : SqlRejudgingReading(connection),
        IRejudgingWriting
{
    // More than anyone looks through one by one; what is wrong with the rest is the same as with these.
    private const long FailuresMost = 1_000;

    private readonly DbConnection connection = connection;

    public RejudgingJob Begin(RejudgingJob job)
    {
        ArgumentNullException.ThrowIfNull(job);
        var number = connection
            .Rows("SELECT COALESCE(MAX(number), 0) + 1 FROM rejudging", row => row.Number(0))
            .Single();
        _ = connection.Execute(
            """
            INSERT INTO rejudging_page (rejudging, page, first_index, last_index, records)
            SELECT @number, cut.page, MIN(cut.entry_index), MAX(cut.entry_index), COUNT(*)
            FROM (
                SELECT entry_index, (ROW_NUMBER() OVER (ORDER BY entry_index) - 1) / @most AS page
                FROM record_row WHERE newest = 1
            ) cut
            GROUP BY cut.page
            """,
            ("@number", number),
            ("@most", (long)RejudgingPage.MostRecords)
        );
        var records = connection
            .Rows(
                "SELECT CAST(COALESCE(SUM(records), 0) AS BIGINT) FROM rejudging_page WHERE rejudging = @number",
                row => row.Number(0),
                ("@number", number)
            )
            .Single();
        _ = connection.Execute(
            """
            INSERT INTO rejudging
                (number, digest, by_whom, reason, begun_at, state, records, turned, unchanged, passed, failed, ended_at)
            VALUES (@number, @digest, @by, @reason, @at, @state, @records, 0, 0, 0, 0, @ended)
            """,
            ("@number", number),
            ("@digest", job.Digest),
            ("@by", job.By),
            ("@reason", job.Reason),
            ("@at", job.BegunAt.ToUnixTimeMilliseconds()),
            ("@state", (long)(records > 0 ? RejudgingState.Running : RejudgingState.Done)),
            ("@records", records),
            ("@ended", records > 0 ? null : job.BegunAt.ToUnixTimeMilliseconds())
        );
        return Find(job.Digest)!;
    }

    public void Settle(
        RejudgingPage page,
        RejudgingCounts counts,
        ImmutableArray<NotJudged> failures,
        DateTimeOffset at
    )
    {
        ArgumentNullException.ThrowIfNull(page);
        ArgumentNullException.ThrowIfNull(counts);
        var job = page.Job.Number;
        _ = connection.Execute(
            "DELETE FROM rejudging_page WHERE rejudging = @job AND page = @page",
            ("@job", job),
            ("@page", page.Number)
        );
        _ = connection.Execute(
            """
            UPDATE rejudging SET turned = turned + @turned, unchanged = unchanged + @unchanged, passed = passed + @passed,
                failed = failed + @failed
            WHERE number = @job
            """,
            ("@job", job),
            ("@turned", counts.Turned),
            ("@unchanged", counts.Unchanged),
            ("@passed", counts.Passed),
            ("@failed", counts.Failed)
        );
        Keep(job, failures);
        _ = connection.Execute(
            """
            UPDATE rejudging SET state = 1, ended_at = @at
            WHERE number = @job AND state = 0 AND NOT EXISTS (SELECT 1 FROM rejudging_page WHERE rejudging = @job)
            """,
            ("@job", job),
            ("@at", at.ToUnixTimeMilliseconds())
        );
    }

    public void End(long job, DateTimeOffset at)
    {
        _ = connection.Execute("DELETE FROM rejudging_page WHERE rejudging = @job", ("@job", job));
        _ = connection.Execute(
            "UPDATE rejudging SET state = 2, ended_at = @at WHERE number = @job AND state = 0",
            ("@job", job),
            ("@at", at.ToUnixTimeMilliseconds())
        );
    }

    private void Keep(long job, ImmutableArray<NotJudged> failures)
    {
        if (failures.IsEmpty)
        {
            return;
        }

        var kept = connection
            .Rows(
                "SELECT COUNT(*) FROM rejudging_failure WHERE rejudging = @job",
                row => row.Number(0),
                ("@job", job)
            )
            .Single();
        foreach (var one in failures.Take((int)Math.Max(0, FailuresMost - kept)))
        {
            _ = connection.Execute(
                """
                INSERT INTO rejudging_failure (rejudging, entry_index, record, why) VALUES (@job, @entry, @record, @why)
                ON CONFLICT (rejudging, entry_index) DO NOTHING
                """,
                ("@job", job),
                ("@entry", one.Entry),
                ("@record", one.Record),
                ("@why", one.Why)
            );
        }
    }
}
