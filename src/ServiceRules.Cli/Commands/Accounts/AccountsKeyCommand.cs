using System.CommandLine;
using System.Globalization;
using ServiceRules.Application.Accounts;
using ServiceRules.Cli.Setup;

namespace ServiceRules.Cli.Commands.Accounts;

/// <summary><c>accounts key</c>: a key for a program, printed this once.</summary>
internal static class AccountsKeyCommand
{
    private static readonly Option<string?> Name = new("--name") { Description = "What it is for." };

    private static readonly Option<string[]> Role = new("--role")
    {
        Description = $"What it may do: {string.Join(", ", RoleWords.All)}. It can be given more than once.",
        DefaultValueFactory = _ => [],
    };

    private static readonly Option<string?> Person = new("--person")
    {
        Description = "The person of the register that it stands for; needed for a technician.",
    };

    private static readonly Option<string?> Site = new("--site")
    {
        Description =
            $"Where there are several sites: the folder of the site that it is of, as `serve` takes it, or {GrantedSite.Every} for every one. "
            + "Default: the site in the folder of rules.",
        HelpName = "DIR",
    };

    private static readonly Option<int> Days = new("--days")
    {
        Description = $"How long it lasts, at most {KeyMaking.MostDays}.",
        DefaultValueFactory = _ => KeyMaking.UsualDays,
    };

    public static Command Of(Session session)
    {
        var command = new Command(
            "key",
            "Makes a key for a program and prints it, this once, alone in its line: it is kept nowhere."
        )
        {
            AccountsCommand.Data,
            Name,
            Role,
            Person,
            Days,
            Site,
            RulesInForce.Option,
        };
        command.SetAction(parsed => Run(parsed, session));
        return command;
    }

    private static int Run(ParseResult parsed, Session session)
    {
        var name = GivenWord.Needed(parsed, Name, "what the key is for", "\"nightly export\"");
        if (name.Length > Grant.NameMost)
        {
            throw new InputException(
                $"{Name.Name}: it has {name.Length.ToString(CultureInfo.InvariantCulture)} characters; accepted: 1 to {Grant.NameMost}"
            );
        }

        var days = parsed.GetValue(Days);
        if (days is < 1 or > KeyMaking.MostDays)
        {
            throw new InputException(
                $"{Days.Name}: {days.ToString(CultureInfo.InvariantCulture)}; accepted: 1 to {KeyMaking.MostDays}"
            );
        }

        var roles = RoleWords.Read(parsed.GetValue(Role)!);
        var person = parsed.GetValue(Person);
        using var accounts = AccountsCommand.Open(parsed, session);
        var (site, fault) = Granted(parsed, roles, person, accounts.Store);
        if (fault is not null)
        {
            throw new InputException($"{Role.Name}, {Person.Name}, {Site.Name}: {fault}");
        }

        var (secret, key) = new KeyMaking(accounts.Store, session.Clock).Make(
            name,
            roles,
            person,
            days,
            AccountAct.Machine,
            site
        );
        session.Tell(secret);
        session.Error.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"key:{key.Id}, {GrantedSite.Told(roles, site)}, until {key.ExpiresAt.UtcDateTime:yyyy-MM-dd}. `/keys` revokes it."
            )
        );
        return ExitCode.Good;
    }

    private static (string? Site, string? Fault) Granted(
        ParseResult parsed,
        Roles roles,
        string? person,
        IAccountStore store
    )
    {
        var given = parsed.GetValue(Site);
        var known = store.Sites();
        if (known.IsEmpty)
        {
            return given is null
                ? (null, Grant.Fault(roles, person, RulesInForce.Sound(parsed).Site!))
                : (null, "the service of this folder has one site; accepted: no site");
        }

        if (given == GrantedSite.Every)
        {
            return (given, Grant.Fault(roles, person, given, []));
        }

        var loaded = RulesInForce.Load(parsed);
        var site = (
            given is null ? RulesInForce.Sound(loaded) : RulesInForce.SiteIn(new DirectoryInfo(given), loaded)
        ).Site!;
        return known.Contains(site.Name)
            ? (site.Name, Grant.Fault(roles, person, site.Name, [site]))
            : (
                null,
                $"the service of this folder has no site `{site.Name}`; accepted: the folder of {string.Join(", ", known.Select(name => $"`{name}`"))}"
            );
    }
}
