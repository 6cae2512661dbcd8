using ServiceRules.Application.Accounts;
using ServiceRules.Host.Setup;
using ServiceRules.Storage;

namespace ServiceRules.Host;

/// <summary>The accounts of a service, for whoever has its data folder, whether it runs or not.</summary>
public sealed class ServiceAccounts : IDisposable
{
    private readonly LedgerFolder folder;

    private ServiceAccounts(LedgerFolder folder) => this.folder = folder;

    public IAccountStore Store => folder.Accounts;

    /// <param name="dataFolder">The data folder of the service.</param>
    /// <exception cref="StartRefusedException">No service was ever started in it.</exception>
    public static ServiceAccounts Open(string dataFolder)
    {
        var place = Path.Combine(dataFolder, ServiceFolder.LedgerName);
        return LedgerFolder.IsBegun(place)
            ? new ServiceAccounts(LedgerFolder.OpenOrCreate(place))
            : throw new StartRefusedException(
                $"--data: there is no service in `{dataFolder}`; accepted: the folder that `serve` was started with"
            );
    }

    public void Dispose() => folder.Dispose();
}
