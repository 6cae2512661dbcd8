using ServiceRules.Application.Accounts;
using ServiceRules.Application.Notices;
using ServiceRules.Host.Notices;
using ServiceRules.Host.Setup;

namespace ServiceRules.Host;

/// <summary>The notices of a service, for whoever has its data folder, whether it runs or not.</summary>
public sealed class ServiceNotices : IDisposable
{
    private const int Together = 1000;

    private readonly ServiceFolder folder;
    private readonly NoticeDesk desk;

    private ServiceNotices(ServiceFolder folder, TimeProvider clock)
    {
        this.folder = folder;
        desk = new NoticeDesk(folder.Notices, folder.Ledger.Key.Name, clock);
    }

    /// <param name="dataFolder">The data folder of the service.</param>
    /// <param name="clock">When acts happen.</param>
    /// <exception cref="StartRefusedException">No service was ever started in it, or its ledger is not the one that its
    /// checkpoints speak of.</exception>
    public static ServiceNotices Open(string dataFolder, TimeProvider clock) =>
        ServiceFolder.IsBegun(dataFolder)
            ? new ServiceNotices(ServiceFolder.Open(dataFolder, clock), clock)
            : throw new StartRefusedException(
                $"--data: there is no service in `{dataFolder}`; accepted: the folder that `serve` was started with"
            );

    /// <summary>Those that were given up, the newest first.</summary>
    public IEnumerable<KeptNotice> GivenUp()
    {
        string? after = null;
        do
        {
            var (items, next) = desk.In(NoticeState.GivenUp, after, Together);
            foreach (var notice in items)
            {
                yield return notice;
            }

            after = next;
        } while (after is not null);
    }

    /// <summary>Has one tried anew that was given up; how it stands then. Null: there is no such notice.</summary>
    public KeptNotice? TryAnew(string id) => desk.TryAnew(id, AccountAct.Machine);

    public void Dispose() => folder.Dispose();
}
