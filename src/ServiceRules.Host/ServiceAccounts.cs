using ServiceRules.Application.Accounts;
using ServiceRules.Host.Setup;

namespace ServiceRules.Host;

/// <summary>The accounts of a service, for whoever has its data folder, whether it runs or not.</summary>
public sealed class ServiceAccounts : IDisposable
{
    private readonly ServiceFolder folder;

    private ServiceAccounts(ServiceFolder folder) => this.folder = folder;

    public IAccountStore Store => folder.Accounts;

    /// <param name="dataFolder">The data folder of the service.</param>
    /// <param name="clock">The clock.</param>
    /// <exception cref="StartRefusedException">No service was ever started in it, or its ledger is not the one that its
    /// checkpoints speak of.</exception>
    public static ServiceAccounts Open(string dataFolder, TimeProvider clock) =>
        ServiceFolder.IsBegun(dataFolder)
            ? new ServiceAccounts(ServiceFolder.Open(dataFolder, clock))
            : throw new StartRefusedException(
                $"--data: there is no service in `{dataFolder}`; accepted: the folder that `serve` was started with"
            );

    public void Dispose() => folder.Dispose();
}
