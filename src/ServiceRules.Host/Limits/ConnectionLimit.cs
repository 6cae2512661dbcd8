using System.Collections.Concurrent;
using System.Net;
using Microsoft.AspNetCore.Connections;

namespace ServiceRules.Host.Limits;

/// <summary>How many connections one address holds at once; a further one is closed.</summary>
/// <param name="most">How many.</param>
/// <param name="proxy">The proxy in front, which asks for everybody.</param>
internal sealed class ConnectionLimit(int most, ProxySettings? proxy)
{
    private readonly ConcurrentDictionary<IPAddress, int> held = new();

    public async Task TakeAsync(ConnectionContext connection, ConnectionDelegate next)
    {
        if (
            (connection.RemoteEndPoint as IPEndPoint)?.Address is not { } address
            || proxy?.Trusted.Any(network => network.Contains(address)) == true
        )
        {
            await next(connection);
            return;
        }

        var own = held.AddOrUpdate(address, 1, (_, count) => count + 1);
        try
        {
            if (own <= most)
            {
                await next(connection);
            }
            else
            {
                connection.Abort();
            }
        }
        finally
        {
            Release(address);
        }
    }

    // Addresses that hold none are not kept: they may be many.
    private void Release(IPAddress address)
    {
        while (held.TryGetValue(address, out var count))
        {
            if (
                count > 1
                    ? held.TryUpdate(address, count - 1, count)
                    : held.TryRemove(new KeyValuePair<IPAddress, int>(address, count))
            )
            {
                return;
            }
        }
    }
}
