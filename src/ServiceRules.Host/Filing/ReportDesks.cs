using System.Collections.Concurrent;
using System.Security.Cryptography.X509Certificates;
using Microsoft.Extensions.Logging;
using ServiceRules.Application.Filed;
using ServiceRules.Evidence;
using ServiceRules.Host.Setup;

namespace ServiceRules.Host.Filing;

/// <summary>Where the reports of each site are drawn and signed: each site signs with a key of its own, under its own name.</summary>
/// <param name="folder">The folder of the service.</param>
/// <param name="home">The site that is served, where there is one.</param>
/// <param name="clock">The clock.</param>
/// <param name="log">For what is wrong with a key.</param>
internal sealed class ReportDesks(
    ServiceFolder folder,
    string home,
    TimeProvider clock,
    ILogger<ReportDesk> log
) : IDisposable
{
    // The key of the site that was there before others came lies where it lay.
    private const string Further = "sites";

    private readonly ConcurrentDictionary<string, ReportDesk> desks = new(StringComparer.Ordinal);

    /// <summary>The desk of a site.</summary>
    public ReportDesk Of(string site) =>
        desks.GetOrAdd(site, name => new ReportDesk(folder.Ledger, KeysOf(name), name, clock, log));

    /// <summary>The desk that signs the report of a record.</summary>
    public ReportDesk OfRecord(string record) =>
        Of(
            folder.Accounts.Sites().IsEmpty
                ? home
                : folder.Ledger.Rows.Versions(record).LastOrDefault()?.Site ?? home
        );

    /// <summary>The certificates whose signatures count here, of every site.</summary>
    public IReadOnlyList<X509Certificate2> Trusted() =>
        [.. folder.Accounts.Sites().DefaultIfEmpty(home).SelectMany(site => Of(site).Trusted())];

    public void Dispose()
    {
        foreach (var desk in desks.Values)
        {
            desk.Dispose();
        }
    }

    private string KeysOf(string site)
    {
        var sites = folder.Accounts.Sites();
        if (sites.IsEmpty || sites[0] == site)
        {
            return folder.Keys;
        }

        // What is made on the way to a private folder would be open to others, and no key of the first site be made in it.
        var further = Path.Combine(folder.Keys, Further);
        PrivateFolder.Begin(folder.Keys);
        PrivateFolder.Begin(further);
        return Path.Combine(
            further,
            ContentHash.Of(System.Text.Encoding.UTF8.GetBytes(site)).ToString()["sha256:".Length..][..16]
        );
    }
}
