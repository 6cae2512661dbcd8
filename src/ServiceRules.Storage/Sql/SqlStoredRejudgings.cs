using System.Collections.Immutable;
using ServiceRules.Application.Rejudging;

namespace ServiceRules.Storage.Sql;

/// <summary>What is to be judged again, each question on a connection of its own.</summary>
internal sealed class SqlStoredRejudgings(SqlLedgerStore store) : IRejudgingStore
{
    public RejudgingJob? Find(string digest) => Ask(jobs => jobs.Find(digest));

    public ImmutableArray<NotJudged> Failures(long job, int most) => Ask(jobs => jobs.Failures(job, most));

    public ImmutableArray<RejudgingPage> Waiting(int most) => Ask(jobs => jobs.Waiting(most));

    public RejudgingPage? Page(long job, long number) => Ask(jobs => jobs.Page(job, number));

    private T Ask<T>(Func<SqlRejudgingReading, T> question) =>
        store.OnConnection(connection => question(new SqlRejudgingReading(connection)));
}
