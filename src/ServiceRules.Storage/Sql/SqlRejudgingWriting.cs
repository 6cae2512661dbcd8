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
    private const long CutsMost = 3;

    private readonly DbConnection connection = connection;

    public RejudgingJob Begin(RejudgingJob job)
    {
        ArgumentNullException.ThrowIfNull(job);
        var number = connection
            .Rows("SELECT COALESCE(MAX(number), 0) + 1 FROM rejudging", row => row.Number(0))
            .Single();
        var (records, beyond) = Cut(number, -1, 0);
        _ = connection.Execute(
            """
            INSERT INTO rejudging
                (number, digest, by_whom, reason, begun_at, state, records, turned, unchanged, passed, failed, ended_at,
                beyond, cuts)
            VALUES (@number, @digest, @by, @reason, @at, @state, @records, 0, 0, 0, 0, @ended, @beyond, 1)
            """,
            ("@number", number),
            ("@digest", job.Digest),
            ("@by", job.By),
            ("@reason", job.Reason),
            ("@at", job.BegunAt.ToUnixTimeMilliseconds()),
            ("@state", (long)(records > 0 ? RejudgingState.Running : RejudgingState.Done)),
            ("@records", records),
            ("@ended", records > 0 ? null : job.BegunAt.ToUnixTimeMilliseconds()),
            ("@beyond", beyond)
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
        CutFurther(job, page.Number);
        _ = connection.Execute(
            """
            UPDATE rejudging SET state = 1, ended_at = @at
            WHERE number = @job AND state = 0 AND NOT EXISTS (SELECT 1 FROM rejudging_page WHERE rejudging = @job)
            """,
            ("@job", job),
            ("@at", at.ToUnixTimeMilliseconds())
        );
    }

    // What was judged by earlier rules when the pages were cut, and filed after that, comes in its turn. While others go on filing
    // there is always something further, and it was judged by the rules in force: a few times are enough.
    private void CutFurther(long job, long last)
    {
        var stands = connection
            .Rows(
                """
                SELECT beyond, cuts FROM rejudging
                WHERE number = @job AND state = 0 AND NOT EXISTS (SELECT 1 FROM rejudging_page WHERE rejudging = @job)
                """,
                row => (Beyond: row.Number(0), Cuts: row.Number(1)),
                ("@job", job)
            )
            .ToList();
        if (stands is not [var (from, cuts)] || cuts >= CutsMost)
        {
            return;
        }

        var (records, beyond) = Cut(job, from, last + 1);
        _ = connection.Execute(
            "UPDATE rejudging SET records = records + @records, beyond = @beyond, cuts = cuts + 1 WHERE number = @job",
            ("@job", job),
            ("@records", records),
            ("@beyond", beyond)
        );
    }

    /// <summary>Cuts the newest versions beyond a place into pages; how many they are, and the last place.</summary>
    private (long Records, long Beyond) Cut(long job, long beyond, long firstPage)
    {
        _ = connection.Execute(
            """
            INSERT INTO rejudging_page (rejudging, page, first_index, last_index, records)
            SELECT @number, @first + cut.page, MIN(cut.entry_index), MAX(cut.entry_index), COUNT(*)
            FROM (
                SELECT entry_index, (ROW_NUMBER() OVER (ORDER BY entry_index) - 1) / @most AS page
                FROM record_row WHERE newest = 1 AND entry_index > @beyond
            ) cut
            GROUP BY cut.page
            """,
            ("@number", job),
            ("@first", firstPage),
            ("@beyond", beyond),
            ("@most", (long)RejudgingPage.MostRecords)
        );
        return connection
            .Rows(
                """
                SELECT CAST(COALESCE(SUM(records), 0) AS BIGINT), COALESCE(MAX(last_index), @beyond)
                FROM rejudging_page WHERE rejudging = @number AND page >= @first
                """,
                row => (row.Number(0), row.Number(1)),
                ("@number", job),
                ("@first", firstPage),
                ("@beyond", beyond)
            )
            .Single();
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
