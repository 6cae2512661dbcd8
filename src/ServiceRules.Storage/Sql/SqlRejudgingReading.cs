using System.Collections.Immutable;
using System.Data.Common;
using ServiceRules.Application.Rejudging;

namespace ServiceRules.Storage.Sql;

/// <summary>Questions about what is to be judged again on one connection.</summary>
internal class SqlRejudgingReading(DbConnection connection)
{
    private const string JobColumns =
        "j.number, j.digest, j.by_whom, j.reason, j.begun_at, j.state, j.records, j.turned, j.unchanged, j.passed, j.failed, j.ended_at";

    private const int JobCount = 12;

    private const string Pages =
        $"SELECT {JobColumns}, p.page, p.first_index, p.last_index, p.records FROM rejudging_page p JOIN rejudging j ON j.number = p.rejudging";

    public RejudgingJob? Find(string digest) =>
        connection
            .Rows(
                $"SELECT {JobColumns} FROM rejudging j WHERE j.digest = @digest ORDER BY j.number DESC LIMIT 1",
                Job,
                ("@digest", digest)
            )
            .SingleOrDefault();

    public RejudgingJob? Running() =>
        connection.Rows($"SELECT {JobColumns} FROM rejudging j WHERE j.state = 0", Job).SingleOrDefault();

    public ImmutableArray<NotJudged> Failures(long job, int most) =>
        [
            .. connection.Rows(
                "SELECT entry_index, record, why FROM rejudging_failure WHERE rejudging = @job ORDER BY entry_index LIMIT @most",
                row => new NotJudged(row.Number(0), row.Text(1), row.Text(2)),
                ("@job", job),
                ("@most", (long)most)
            ),
        ];

    public ImmutableArray<RejudgingPage> Waiting(int most) =>
        [
            .. connection.Rows(
                $"{Pages} ORDER BY p.rejudging, p.page LIMIT @most",
                Page,
                ("@most", (long)most)
            ),
        ];

    public RejudgingPage? Page(long job, long number) =>
        connection
            .Rows(
                $"{Pages} WHERE p.rejudging = @job AND p.page = @page",
                Page,
                ("@job", job),
                ("@page", number)
            )
            .SingleOrDefault();

    private static RejudgingJob Job(DbDataReader row) =>
        new(row.Number(0), row.Text(1), row.Text(2), DateTimeOffset.FromUnixTimeMilliseconds(row.Number(4)))
        {
            Reason = row.TextOrNone(3),
            State = (RejudgingState)row.Number(5),
            Records = row.Number(6),
            Counts = new(row.Number(7), row.Number(8), row.Number(9), row.Number(10)),
            EndedAt = row.NumberOrNone(11) is { } at ? DateTimeOffset.FromUnixTimeMilliseconds(at) : null,
        };

    private static RejudgingPage Page(DbDataReader row) =>
        new(
            Job(row),
            row.Number(JobCount),
            row.Number(JobCount + 1),
            row.Number(JobCount + 2),
            row.Number(JobCount + 3)
        );
}
