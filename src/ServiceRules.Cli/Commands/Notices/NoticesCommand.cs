using System.CommandLine;
using ServiceRules.Application.Ledger;
using ServiceRules.Cli.Commands.Accounts;
using ServiceRules.Cli.Setup;
using ServiceRules.Host;

namespace ServiceRules.Cli.Commands.Notices;

/// <summary><c>notices</c>: what the service could not tell, for whoever has its data folder.</summary>
internal static class NoticesCommand
{
    public static Command Of(Session session) =>
        new("notices", "Lists the notices that the service gave up, and has them tried anew.")
        {
            NoticesListCommand.Of(session),
            NoticesRetryCommand.Of(session),
        };

    /// <exception cref="InputException">There is no service in the folder, or it cannot be used.</exception>
    public static ServiceNotices Open(ParseResult parsed, TimeProvider clock)
    {
        try
        {
            return ServiceNotices.Open(
                parsed.GetValue(AccountsCommand.Data)?.FullName ?? ServeCommand.UsualFolder(false),
                clock
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
