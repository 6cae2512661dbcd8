using System.CommandLine;
using ServiceRules.Application.Ledger;
using ServiceRules.Cli.Setup;
using ServiceRules.Host;

namespace ServiceRules.Cli.Commands.Accounts;

/// <summary><c>accounts</c>: ways into the service, for whoever has its data folder.</summary>
internal static class AccountsCommand
{
    public static Option<DirectoryInfo?> Data { get; } =
        new("--data")
        {
            Description =
                "Private folder of the service, running or not. Default: servicerules/service in the user's data folder.",
            HelpName = "DIR",
        };

    public static Command Of(Session session) =>
        new("accounts", "Makes ways into the service, for whoever has its data folder.")
        {
            AccountsKeyCommand.Of(session),
            AccountsResetFirstSecretCommand.Of(session),
        };

    /// <exception cref="InputException">There is no service in the folder, or it cannot be used.</exception>
    public static ServiceAccounts Open(ParseResult parsed, Session session)
    {
        try
        {
            return ServiceAccounts.Open(
                parsed.GetValue(Data)?.FullName ?? ServeCommand.UsualFolder(false),
                session.Clock
            );
        }
        catch (StartRefusedException refused)
        {
            throw new InputException(refused.Lines);
        }
        catch (LedgerStoreException refused)
            when (refused.Trouble is StoreTrouble.NotPrivate or StoreTrouble.Damaged)
        {
            throw new InputException(refused.Message);
        }
    }
}
