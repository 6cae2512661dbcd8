using System.CommandLine;
using ServiceRules.Application.Accounts;
using ServiceRules.Cli.Setup;

namespace ServiceRules.Cli.Commands.Accounts;

/// <summary><c>accounts reset-first-secret</c>: for a shop of whose administrators none comes in any more.</summary>
internal static class AccountsResetFirstSecretCommand
{
    public static Command Of(Session session)
    {
        var command = new Command(
            "reset-first-secret",
            "Prints a new secret that makes one more administrator at /first-administrator, once and within an hour."
        )
        {
            AccountsCommand.Data,
        };
        command.SetAction(parsed => Run(parsed, session));
        return command;
    }

    private static int Run(ParseResult parsed, Session session)
    {
        using var accounts = AccountsCommand.Open(parsed, session);
        session.Tell(FirstSecrets.Draw(accounts.Store, session.Clock.GetUtcNow()));
        session.Error.WriteLine("Use it at /first-administrator within an hour; it is good once.");
        return ExitCode.Good;
    }
}
