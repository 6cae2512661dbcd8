using ServiceRules.Application.Accounts;
using ServiceRules.Host.Due;
using ServiceRules.Host.Sites;
using ServiceRules.Host.Tests.Accounts;

namespace ServiceRules.Host.Tests.Due;

/// <summary>
/// A service of two sites on 20 December 2026. J-A1 is filed at the first, with gauge HG-01 that is calibrated until 10 January 2027; of
/// the second the registers alone say something.
/// </summary>
public sealed class DueAtFiledShop : IAsyncLifetime
{
    public static readonly DateTimeOffset Now = new(2026, 12, 20, 12, 0, 0, TimeSpan.Zero);

    private readonly string folder = Directory.CreateTempSubdirectory("servicerules-due-").FullName;

    public ServiceRun Run { get; private set; } = null!;

    public async Task InitializeAsync()
    {
        Run = await ServiceRun.StartAsync(
            null,
            settings =>
                Sites.TwoSites.WithSecond(settings, folder) with
                {
                    Clock = new MovedClock { Ahead = Now - TimeProvider.System.GetUtcNow() },
                }
        );
        using var lead = As(Roles.Lead, Sites.TwoSites.First);
        var (status, body) = await Sites.TwoSites.PostAsync(
            lead,
            "api/records",
            Sites.TwoSites.Job("J-A1", "13")
        );
        Assert.True(status == 201, body);
        foreach (var site in Run.Get<ServedSites>().All)
        {
            _ = Run.Get<DueDesk>().Go(site, CancellationToken.None);
        }
    }

    public async Task DisposeAsync()
    {
        await Run.DisposeAsync();
        Directory.Delete(folder, recursive: true);
    }

    /// <summary>Asks with a key of a site.</summary>
    public HttpClient As(Roles roles, string? site, string? person = null) =>
        Run.ClientWith(Run.NewKey(roles, person, site: site));
}
