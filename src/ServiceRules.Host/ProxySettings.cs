using System.Collections.Immutable;
using System.Net;

namespace ServiceRules.Host;

/// <summary>The proxy in front, that speaks TLS with whoever asks.</summary>
/// <param name="Trusted">Where it asks from: what it says of the request is taken from there alone.</param>
/// <param name="Public">The address that people and programs ask: <c>https</c> and a name.</param>
public sealed record ProxySettings(ImmutableArray<IPNetwork> Trusted, Uri Public)
{
    /// <summary>Reads addresses and networks with commas between them, and the public address.</summary>
    /// <returns>The settings, or what is wrong with them.</returns>
    public static (ProxySettings? Settings, string? Fault) Read(string trusted, string address)
    {
        ArgumentNullException.ThrowIfNull(trusted);
        var networks = ImmutableArray.CreateBuilder<IPNetwork>();
        foreach (var one in trusted.Split(',', StringSplitOptions.TrimEntries))
        {
            if (Network(one) is not { } network)
            {
                return (
                    null,
                    $"--proxy: `{one}` is no address and no network; accepted: 127.0.0.1, or 10.0.3.0/28"
                );
            }

            if (network.PrefixLength == 0)
            {
                return (null, $"--proxy: `{one}` is everybody; accepted: the addresses of the proxy alone");
            }

            networks.Add(network);
        }

        return
            Uri.TryCreate(address, UriKind.Absolute, out var named)
            && named.Scheme == Uri.UriSchemeHttps
            && named.UserInfo.Length == 0
            && named.PathAndQuery == "/"
            && named.Fragment.Length == 0
            ? (new ProxySettings(networks.ToImmutable(), named), null)
            : (
                null,
                $"--public: `{address}` is no address of a proxy that speaks TLS; accepted: https://NAME"
            );
    }

    private static IPNetwork? Network(string text) =>
        IPAddress.TryParse(text, out var address)
            ? new IPNetwork(address, address.GetAddressBytes().Length * 8)
        : IPNetwork.TryParse(text, out var network) ? network
        : null;
}
