using ServiceRules.Formats.Json;

namespace ServiceRules.Host;

/// <summary>How much is asked of the service at once. Every bound ends hostile or broken clients early.</summary>
public sealed record ServiceLimits
{
    public static ServiceLimits Default { get; } = new();

    /// <summary>One body: the largest document that is taken.</summary>
    public int BodyBytes { get; init; } = ReadLimits.Record.Bytes;

    /// <summary>The largest report that is looked at when somebody asks whether it is genuine.</summary>
    public const int ReportBytes = 8 * 1024 * 1024;

    /// <summary>The largest archive of rules. Those shipped take a quarter of a mebibyte.</summary>
    public const int PackBytes = 8 * 1024 * 1024;

    /// <summary>How long cases of rules that were sent, or comparing by them, may go on. Those shipped take far less.</summary>
    public TimeSpan PackTime { get; init; } = TimeSpan.FromMinutes(5);

    /// <summary>Requests that one address may send at once, after a pause.</summary>
    public int RequestsAtOnce { get; init; } = 1_000;

    /// <summary>Requests that one address may send for each second after that: far more than people at benches do.</summary>
    public int RequestsPerSecond { get; init; } = 200;

    /// <summary>Requests under way. Judging is arithmetic, so that more than these would only wait for one another.</summary>
    public int RequestsUnderWay { get; init; } = 64;

    /// <summary>Requests that wait for their turn.</summary>
    public int RequestsWaiting { get; init; } = 512;

    /// <summary>How long one request may take, a report of a large job included.</summary>
    public TimeSpan RequestTime { get; init; } = TimeSpan.FromSeconds(30);

    /// <summary>How long requests under way have to end when the service stops.</summary>
    public TimeSpan StopTime { get; init; } = TimeSpan.FromSeconds(20);

    /// <summary>Connections. A shop has some tens of screens; each may hold a few.</summary>
    public int Connections { get; init; } = 1_000;

    /// <summary>Connections of one address: nobody alone keeps all others out. A proxy is not held to it.</summary>
    public int ConnectionsOfOneAddress { get; init; } = 250;

    /// <summary>Passwords and first secrets that one address may try at once, after a pause: a shop that begins its day.</summary>
    public int SignInsAtOnce { get; init; } = 60;

    /// <summary>The same for each minute after that. Each account is locked by far fewer wrong ones.</summary>
    public int SignInsPerMinute { get; init; } = 20;
}
