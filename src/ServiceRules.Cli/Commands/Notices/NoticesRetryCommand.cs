using System.CommandLine;
using System.Globalization;
using ServiceRules.Cli.Commands.Accounts;
using ServiceRules.Cli.Setup;

namespace ServiceRules.Cli.Commands.Notices;

/// <summary><c>notices retry</c>: has notices that were given up tried anew.</summary>
internal static class NoticesRetryCommand
{
    private static readonly Argument<string[]> Ids = new("ID")
    {
        Description = "Notices, as `notices list` names them.",
        Arity = ArgumentArity.ZeroOrMore,
    };

    private static readonly Option<bool> All = new("--all") { Description = "All that were given up." };

    public static Command Of(Session session)
    {
        var command = new Command(
            "retry",
            "Has notices that were given up tried from the first attempt on: within 15 seconds where the service runs, else at its next start."
        )
        {
            AccountsCommand.Data,
            Ids,
            All,
        };
        command.SetAction(parsed => Run(parsed, session));
        return command;
    }

    private static int Run(ParseResult parsed, Session session)
    {
        var ids = parsed.GetValue(Ids)!;
        if (ids.Length > 0 == parsed.GetValue(All))
        {
            throw new InputException($"accepted: names of notices, or {All.Name}, and not both");
        }

        using var notices = NoticesCommand.Open(parsed, session.Clock);
        // All of them are read first: what is tried anew leaves the list.
        var chosen = ids.Length > 0 ? ids : [.. notices.GivenUp().Select(notice => notice.Id)];
        var count = 0;
        foreach (var id in chosen)
        {
            var notice =
                notices.TryAnew(id)
                ?? throw new InputException(
                    $"there is no notice `{id}`; accepted: one that `notices list` names"
                );
            session.Tell($"{notice.Id}  {notice.State}");
            count++;
        }

        session.Error.WriteLine(
            string.Create(CultureInfo.InvariantCulture, $"{count} notices, each as it stands now.")
        );
        return ExitCode.Good;
    }
}
