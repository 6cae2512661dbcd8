using System.CommandLine;
using ServiceRules.Application.Ledger;
using ServiceRules.Cli.Printing;
using ServiceRules.Cli.Setup;

namespace ServiceRules.Cli.Commands.Ledger;

/// <summary><c>ledger show ID</c>: what was filed about something over time, and what changed.</summary>
internal static class LedgerShowCommand
{
    public static Command Of(Session session)
    {
        var subject = new Argument<string>("ID")
        {
            Description = "A record, a setting order, a waiver, or rules-in-force.",
        };
        var command = new Command(
            "show",
            "Tells the versions of a record over time: when, who, why, what changed, and the verdict then and now."
        )
        {
            subject,
            LedgerPlace.Option,
            LedgerPlace.Checkpoints,
            LedgerPlace.AcceptMissing,
        };
        command.SetAction(parsed =>
        {
            using var ledger = LedgerInUse.ToRead(parsed, session);
            var id = parsed.GetRequiredValue(subject);
            var versions = new TellSubject(ledger.Ledger.Log).TellApart(id);
            if (versions.IsEmpty)
            {
                session.Error.WriteLine($"nothing is filed about `{id}` here");
                return ExitCode.Unusable;
            }

            foreach (var thing in versions)
            {
                new SubjectPrint(session.Screen, id, thing).Print(versions.Length > 1);
            }

            if (!versions.Any(thing => thing.Any(version => version.IsDamaged)))
            {
                return ExitCode.Good;
            }

            session.Error.WriteLine(
                $"contents of `{id}` are not as they were filed; `servicerules ledger verify` tells everything that is wrong"
            );
            return ExitCode.NotGood;
        });
        return command;
    }
}
