namespace ServiceRules.Host.Tests;

/// <summary>One service for the tests of a class: each submits records under identities of its own.</summary>
public sealed class SharedService : IAsyncLifetime
{
    public ServiceRun Run { get; private set; } = null!;

    public async Task InitializeAsync() => Run = await ServiceRun.StartAsync();

    public async Task DisposeAsync() => await Run.DisposeAsync();
}
