namespace ServiceRules.Application.Working;

/// <summary>Work that outlives the process that was at it.</summary>
public interface IWorkQueue : IAsyncDisposable
{
    /// <summary>Begins to work; what an earlier process left is taken up.</summary>
    Task StartAsync(IReadOnlyList<IWork> kinds, CancellationToken stop);

    /// <summary>Keeps what is to be done; asked for twice, it is one work.</summary>
    Task AddAsync(string kind, string what, CancellationToken stop);
}
