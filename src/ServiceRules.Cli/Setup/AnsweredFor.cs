using System.CommandLine;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Library;

namespace ServiceRules.Cli.Setup;

/// <summary>
/// Who answers for what bears on a whole ledger, and why. Where it is of several sites, it is said in which register the person
/// stands: none of them is the one that is meant where nobody says.
/// </summary>
internal static class AnsweredFor
{
    private static readonly Option<DirectoryInfo?> Site = new("--site")
    {
        Description =
            "Where the ledger is of several sites: the folder of the one in whose register --by stands, as `serve` takes it, or the folder "
            + "of rules for the site in it.",
        HelpName = "DIR",
    };

    /// <summary>The same command, which also takes who answers for what it does, and the ledger.</summary>
    public static Command TakingPersonAndLedger(this Command command)
    {
        command.Options.Add(GivenPerson.By);
        command.Options.Add(GivenPerson.Reason);
        command.Options.Add(Site);
        command.Options.Add(RulesInForce.Option);
        return command.TakingLedger();
    }

    /// <summary>The same command, which also takes the ledger that it works on.</summary>
    public static Command TakingLedger(this Command command)
    {
        command.Options.Add(LedgerPlace.Option);
        command.Options.Add(LedgerPlace.Checkpoints);
        command.Options.Add(LedgerPlace.AcceptMissing);
        return command;
    }

    /// <exception cref="InputException">One of both is missing, or it is nobody in the register of one of its sites.</exception>
    public static Correction By(ParseResult parsed, string what, LedgerInUse ledger)
    {
        var given = parsed.GetValue(Site);
        var loaded = RulesInForce.Load(parsed);
        if (ledger.Sites.IsEmpty)
        {
            return given is null
                ? GivenPerson.Correcting(parsed, what, loaded)
                : throw new InputException(
                    $"{Site.Name}: this ledger is of one site; accepted: no {Site.Name}"
                );
        }

        var accepted =
            $"accepted: {Site.Name} and the folder of {string.Join(", ", ledger.Sites.Select(name => $"`{name}`"))}";
        if (given is null)
        {
            throw new InputException(
                $"this ledger is of several sites, and it is not said in whose register {GivenPerson.By.Name} stands; {accepted}"
            );
        }

        var site = SiteIn(given, loaded, RulesInForce.FolderOf(parsed));
        return ledger.Sites.Contains(site.Site!.Name)
            ? GivenPerson.Correcting(parsed, what, site)
            : throw new InputException(
                $"{Site.Name}: this ledger is of no site `{site.Site.Name}`; {accepted}"
            );
    }

    private static LoadedRules SiteIn(DirectoryInfo given, LoadedRules loaded, string rules) =>
        RealPath.Of(given.FullName) == RealPath.Of(rules)
            ? RulesInForce.Sound(loaded)
            : RulesInForce.SiteIn(given, loaded);
}
