using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using System.Net;
using ServiceRules.Application.Library;
using ServiceRules.Cli.Setup;
using ServiceRules.Host;
using ServiceRules.Host.Inbox;

namespace ServiceRules.Cli.Commands;

/// <summary><c>serve</c>: the service, until it is told to stop.</summary>
internal static class ServeCommand
{
    private const int PortMost = 65_535;

    private static readonly Option<DirectoryInfo?> Data = new("--data")
    {
        Description =
            "Private folder of the service: ledger and keys, made at first start; checkpoints go to DIR-checkpoints beside it. "
            + "Default: servicerules/service in the user's data folder, with --demo servicerules/demo.",
        HelpName = "DIR",
    };

    private static readonly Option<bool> ActivateRules = new("--activate-rules")
    {
        Description =
            "Let the rules of the folder judge from now on, whatever was put in force before; kept as an act. Without it, they do so at the very first start alone.",
    };

    private static readonly Option<int> Port = new("--port")
    {
        Description = "Where it listens; 0: any port that is free.",
        DefaultValueFactory = _ => 5080,
    };

    private static readonly Option<string> Address = new("--address")
    {
        Description =
            "The address of this machine that it listens on. Only loopback, unless it speaks TLS: passwords and keys could be read on the way.",
        DefaultValueFactory = _ => "127.0.0.1",
    };

    private static readonly Option<FileInfo?> Certificate = new("--certificate")
    {
        Description =
            "Speak TLS with this certificate (PEM, with those that lead to its root after it), and answer to the names that it is for.",
        HelpName = "CERT",
    };

    private static readonly Option<FileInfo?> CertificateKey = new("--certificate-key")
    {
        Description = "The private key of that certificate (PEM), readable by its owner alone.",
        HelpName = "KEY",
    };

    private static readonly Option<string?> Proxy = new("--proxy")
    {
        Description =
            "Where a proxy in front asks from: addresses or networks, with commas between them. What it says of a request "
            + "(X-Forwarded-For, -Proto, -Host) is taken from there alone.",
        HelpName = "ADDRESS[,ADDRESS]",
    };

    private static readonly Option<string?> Public = new("--public")
    {
        Description = "The address under which that proxy is asked.",
        HelpName = "https://NAME",
    };

    private static readonly Option<bool> Demo = new("--demo")
    {
        Description = "File two seasons of an invented shop first.",
    };

    private static readonly Option<DirectoryInfo?> InboxFolder = new("--inbox")
    {
        Description =
            "A folder that records (*.json) and tables (*.csv, *.xlsx) are dropped into, made where there is none: what can be filed "
            + "goes to `filed` in it, the rest to `refused`, each with an answer beside it.",
        HelpName = "DIR",
    };

    private static readonly Option<DirectoryInfo[]> Sites = new("--site")
    {
        Description =
            "Folder of a further site (site.json, registers.json, procedures, setting-orders), judged by the packs and sheets of --rules and "
            + "by registers of its own. It can be given more than once. Accounts, keys and records are then of a site each.",
        HelpName = "DIR",
        DefaultValueFactory = _ => [],
    };

    private static readonly Option<string?> InboxSite = new("--inbox-site")
    {
        Description =
            "The site whose records are dropped into the inbox, by its name; needed where there are several.",
        HelpName = "NAME",
    };

    private static readonly Option<FileInfo?> Mapping = GivenMapping.Option(
        "Which column goes to which place, for tables of the inbox without a mapping beside them."
    );

    private static readonly Option<bool> ReportsAhead = new("--reports-ahead")
    {
        Description =
            "Make the report of each record after its filing, and not when somebody first asks for it.",
    };

    public static Command Of(Session session)
    {
        var command = new Command(
            "serve",
            "Runs the service on this machine: submit records over HTTP, get them judged, filed and proven. Ends with Ctrl+C."
        )
        {
            Data,
            RulesInForce.Option,
            Sites,
            ActivateRules,
            Port,
            Address,
            Certificate,
            CertificateKey,
            Proxy,
            Public,
            Demo,
            InboxFolder,
            InboxSite,
            Mapping,
            ReportsAhead,
        };
        command.SetAction(parsed =>
            RunAsync(Settings(parsed, session), session, IsExample(parsed)).GetAwaiter().GetResult()
        );
        return command;
    }

    private static ServiceSettings Settings(ParseResult parsed, Session session)
    {
        var port = parsed.GetValue(Port);
        if (port is < 0 or > PortMost)
        {
            throw new InputException(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{Port.Name}: {port} is no port; accepted: 0 to {PortMost}"
                )
            );
        }

        var address = parsed.GetValue(Address)!;
        if (!IPAddress.TryParse(address == "localhost" ? "127.0.0.1" : address, out var listening))
        {
            throw new InputException(
                $"{Address.Name}: `{address}` is no address; accepted: 127.0.0.1, or ::1; with {Certificate.Name} any of this machine"
            );
        }

        var isDemo = parsed.GetValue(Demo);
        var (rules, sites) = Rules(parsed);
        if (isDemo && !sites.IsEmpty)
        {
            throw new InputException(
                $"{Demo.Name}, {Sites.Name}: the demo is of one invented shop; accepted: one of both"
            );
        }

        return new ServiceSettings
        {
            DataFolder = parsed.GetValue(Data)?.FullName ?? UsualFolder(isDemo),
            Rules = rules,
            Sites = sites,
            ActivatesRules = parsed.GetValue(ActivateRules),
            Address = listening,
            Tls = Tls(parsed),
            Proxy = ProxyInFront(parsed),
            Port = port,
            IsDemo = isDemo,
            Inbox = Inbox(parsed, !sites.IsEmpty),
            ReportsAhead = parsed.GetValue(ReportsAhead),
            Clock = session.Clock,
        };
    }

    // Where sites are given, the folder of rules may be without one.
    private static (LoadedRules Rules, ImmutableArray<LoadedRules> Sites) Rules(ParseResult parsed)
    {
        var loaded = RulesInForce.Load(parsed);
        var folders = parsed.GetValue(Sites)!;
        return folders.Length == 0
            ? (RulesInForce.Sound(loaded), [])
            : (loaded, [.. folders.Select(folder => RulesInForce.SiteIn(folder, loaded))]);
    }

    private static TlsFiles? Tls(ParseResult parsed) =>
        (parsed.GetValue(Certificate), parsed.GetValue(CertificateKey)) switch
        {
            (null, null) => null,
            ({ } certificate, { } key) => new TlsFiles(certificate.FullName, key.FullName),
            _ => throw new InputException(
                $"{Certificate.Name}, {CertificateKey.Name}: one without the other; accepted: both, or neither"
            ),
        };

    private static ProxySettings? ProxyInFront(ParseResult parsed)
    {
        switch (parsed.GetValue(Proxy), parsed.GetValue(Public))
        {
            case (null, null):
                return null;
            case ({ } trusted, { } address):
                var (settings, fault) = ProxySettings.Read(trusted, address);
                return settings ?? throw new InputException(fault!);
            default:
                throw new InputException(
                    $"{Proxy.Name}, {Public.Name}: one without the other; accepted: both, or neither"
                );
        }
    }

    private static InboxSettings? Inbox(ParseResult parsed, bool areSeveral)
    {
        var site = parsed.GetValue(InboxSite);
        if (site is not null && parsed.GetValue(InboxFolder) is null)
        {
            throw new InputException(
                $"{InboxSite.Name}: it is for an inbox; accepted: {InboxFolder.Name} beside it"
            );
        }

        if (areSeveral && site is null && parsed.GetValue(InboxFolder) is not null)
        {
            throw new InputException(
                $"{InboxFolder.Name}: it is not said which site its records are of; accepted: {InboxSite.Name} NAME beside it"
            );
        }

        var mapping = parsed.GetValue(Mapping);
        return parsed.GetValue(InboxFolder)?.FullName is { } folder
                ? new InboxSettings
                {
                    Folder = folder,
                    Site = site,
                    Mapping = mapping is null ? null : GivenMapping.Read(mapping),
                }
            : mapping is null ? null
            : throw new InputException(
                $"{Mapping.Name}: it is for tables of an inbox; accepted: {InboxFolder.Name} beside it"
            );
    }

    // On standard output alone: a log is read by more people than whoever started it.
    private static void TellWaysIn(RunningService service, Session session)
    {
        var ways = service.WaysIn;
        if (ways.FirstSecret is { } secret)
        {
            session.Tell(
                $"Nobody has an account yet. Within an hour, and once, {service.Asked}first-administrator"
            );
            session.Tell($"makes an administrator with this secret: {secret}");
        }
    }

    // The invented shop never gets among the jobs of a real one.
    public static string UsualFolder(bool isDemo) =>
        Path.Combine(
            Environment.GetFolderPath(
                Environment.SpecialFolder.LocalApplicationData,
                Environment.SpecialFolderOption.DoNotVerify
            ),
            "servicerules",
            isDemo ? "demo" : "service"
        );

    // Nobody said whose shop it is: then it is the one that the rules are shipped with.
    private static bool IsExample(ParseResult parsed) =>
        parsed.GetValue(RulesInForce.Option) is null
        && parsed.GetValue(Sites) is null or []
        && !parsed.GetValue(Demo);

    private static async Task<int> RunAsync(ServiceSettings settings, Session session, bool isExample)
    {
        try
        {
            await using var service = await RunningService.StartAsync(settings);
            foreach (var remark in service.Remarks)
            {
                await session.Error.WriteLineAsync(remark);
            }

            session.Tell($"ServiceRules listens on {service.Address} (Ctrl+C stops it).");
            if (service.Asked != service.Address)
            {
                session.Tell($"A proxy in front is asked under {service.Asked}");
            }

            session.Tell($"Its ledger and keys are in {settings.DataFolder}.");
            if (isExample && settings.Rules.Site is { Name: var example })
            {
                session.Tell(
                    $"Its site is the example shop, {example}: machines and people are invented, and no record of a real one belongs there."
                );
                session.Tell(
                    "A shop of your own: `servicerules rules new site`, then `serve --rules DIR`; docs/own-shop.md goes through it."
                );
            }

            if (settings.Inbox is { Folder: var inbox })
            {
                session.Tell($"It files what is dropped into {inbox}.");
            }

            TellWaysIn(service, session);
            if (service.DemoFiled is { } filed)
            {
                DemoTelling.Begin(service.WaysIn, service.Address, session);
                await DemoTelling.EndAsync(filed, service.Address, session);
            }

            await service.EndedAsync();
            session.Tell("The service has stopped.");
            return ExitCode.Good;
        }
        catch (StartRefusedException refused)
        {
            throw new InputException(refused.Lines);
        }
    }
}
