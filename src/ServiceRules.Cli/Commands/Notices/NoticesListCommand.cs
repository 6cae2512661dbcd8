using System.CommandLine;
using System.Globalization;
using ServiceRules.Cli.Commands.Accounts;
using ServiceRules.Cli.Setup;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Cli.Commands.Notices;

/// <summary><c>notices list</c>: the notices that were given up, the newest first.</summary>
internal static class NoticesListCommand
{
    public static Command Of(Session session)
    {
        var command = new Command("list", "Lists the notices that were given up, and why, the newest first.")
        {
            AccountsCommand.Data,
        };
        command.SetAction(parsed => Run(parsed, session));
        return command;
    }

    private static int Run(ParseResult parsed, Session session)
    {
        using var notices = NoticesCommand.Open(parsed, session.Clock);
        var count = 0;
        foreach (var notice in notices.GivenUp())
        {
            count++;
            session.Tell(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{notice.Id}  due {UtcTime.Print(notice.DueAt)}  {notice.Attempts} attempts  {notice.Failure}"
                )
            );
        }

        if (count == 0)
        {
            session.Error.WriteLine("No notice is given up.");
        }

        return ExitCode.Good;
    }
}
