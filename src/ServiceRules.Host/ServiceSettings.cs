using System.Collections.Immutable;
using System.Net;
using ServiceRules.Application.Library;
using ServiceRules.Host.Inbox;

namespace ServiceRules.Host;

/// <summary>What the service is started with.</summary>
public sealed record ServiceSettings
{
    /// <summary>Its private folder: ledger, keys. Made at first start.</summary>
    public required string DataFolder { get; init; }

    /// <summary>The rules it judges by and the registers of its site; no site where further ones are given. They are sound.</summary>
    public required LoadedRules Rules { get; init; }

    /// <summary>Further sites, judged by the same packs and sheets and by registers of their own. They are sound.</summary>
    public ImmutableArray<LoadedRules> Sites { get; init; } = [];

    /// <summary>Whether these rules come into force at this start, whatever is in force.</summary>
    public bool ActivatesRules { get; init; }

    public IPAddress Address { get; init; } = IPAddress.Loopback;

    /// <summary>The certificate it speaks TLS with; null: plain HTTP, on loopback alone.</summary>
    public TlsFiles? Tls { get; init; }

    /// <summary>The proxy that it is asked through; null: none.</summary>
    public ProxySettings? Proxy { get; init; }

    /// <summary>0: any that is free.</summary>
    public int Port { get; init; } = 5080;

    /// <summary>Whether the demo scenario is filed.</summary>
    public bool IsDemo { get; init; }

    /// <summary>How many jobs of the demo scenario are filed; null: all.</summary>
    public int? DemoJobs { get; init; }

    /// <summary>The folder that files are taken from; null: none.</summary>
    public InboxSettings? Inbox { get; init; }

    /// <summary>After how long a notice that was not taken is tried again, time after time; then it is given up.</summary>
    public ImmutableArray<TimeSpan> NoticePauses { get; init; } =
    [
        TimeSpan.FromSeconds(10),
        TimeSpan.FromMinutes(1),
        TimeSpan.FromMinutes(5),
        TimeSpan.FromMinutes(15),
        TimeSpan.FromHours(1),
        TimeSpan.FromHours(3),
        TimeSpan.FromHours(6),
        TimeSpan.FromHours(12),
        TimeSpan.FromHours(24),
        TimeSpan.FromHours(24),
    ];

    /// <summary>Whether reports are made after a filing, and not when somebody asks first.</summary>
    public bool ReportsAhead { get; init; }

    public TimeProvider Clock { get; init; } = TimeProvider.System;

    public ServiceLimits Limits { get; init; } = ServiceLimits.Default;
}
