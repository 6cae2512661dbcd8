using System.Net;
using System.Net.Sockets;

namespace ServiceRules.TestKit;

/// <summary>A port that nobody listens on now. Somebody may before it is used: whoever can takes port 0 instead, or looks again.</summary>
public static class FreePort
{
    public static int Find()
    {
        using var probe = new TcpListener(IPAddress.Loopback, 0);
        probe.Start();
        return ((IPEndPoint)probe.LocalEndpoint).Port;
    }
}
