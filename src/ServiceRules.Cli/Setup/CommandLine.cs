using System.CommandLine;
using ServiceRules.Application.Filed;
using ServiceRules.Application.Ledger;
using ServiceRules.Cli.Commands;
using ServiceRules.Cli.Commands.Accounts;
using ServiceRules.Cli.Commands.Keeping;
using ServiceRules.Cli.Commands.Ledger;
using ServiceRules.Cli.Commands.Notices;

namespace ServiceRules.Cli.Setup;

/// <summary>The command line as a whole: what there is, and how failures end.</summary>
internal static class CommandLine
{
    public static int Run(string[] args, TextWriter output, TextWriter error)
    {
        var session = new Session(output, error);
        try
        {
            CheckNoneIsEmpty(args);

            var parsed = Root(session).Parse(args);
            if (parsed.Errors.Count > 0)
            {
                foreach (var problem in parsed.Errors)
                {
                    session.Error.WriteLine(InOurWords(problem.Message));
                }

                session.Error.WriteLine("`servicerules --help` lists what there is.");
                return ExitCode.Unusable;
            }

            return parsed.Invoke(
                new InvocationConfiguration
                {
                    Output = output,
                    Error = error,
                    EnableDefaultExceptionHandler = false,
                }
            );
        }
        catch (InputException unusable)
        {
            unusable.Tell(session.Error);
            return ExitCode.Unusable;
        }
        catch (BrokenLogException broken)
        {
            session.Error.WriteLine($"the ledger is not sound: {broken.Fault}");
            session.Error.WriteLine("`servicerules ledger verify` tells everything that is wrong with it.");
            return ExitCode.Unusable;
        }
        catch (Exception full) when (DiskFull.Is(full))
        {
            session.Error.WriteLine(
                $"no room is left to write what has to be written: {DiskFull.Told(full)}"
            );
            return ExitCode.Failed;
        }
#pragma warning disable CA1031 // The edge of the product: a failure of the tool is told in one line, never as a stack trace.
        catch (Exception failure)
        {
            session.Error.WriteLine($"servicerules failed: {failure.Message}");
            return ExitCode.Failed;
        }
#pragma warning restore CA1031
    }

    // What a value has to be is told there by the name of a type.
    private static string InOurWords(string message)
    {
        const string Expected = " as expected type '";
        var at = message.IndexOf(Expected, StringComparison.Ordinal);
        return at < 0 ? message
            : message.IndexOf("System.Int", at, StringComparison.Ordinal) > 0
                ? $"{message[..at]}; accepted: a whole number"
            : message[..at];
    }

    private static void CheckNoneIsEmpty(string[] args)
    {
        var at = Array.FindIndex(args, string.IsNullOrWhiteSpace);
        if (at < 0)
        {
            return;
        }

        throw new InputException(
            at > 0 && args[at - 1].StartsWith('-')
                ? $"{args[at - 1]}: what is given with it is empty; accepted: what `--help` names for it, or to leave it out"
                : "an empty argument names no file; accepted: a path or an option"
        );
    }

    private static RootCommand Root(Session session) =>
        new("Judges service records of reel cutting units, and issues and verifies signed reports.")
        {
            CheckCommand.Of(session),
            ReportCommand.Of(session),
            SafeWorkCommand.Of(session),
            VerifyCommand.Of(session),
            HistoryCommand.Of(session),
            RecallCommand.Of(session),
            WitnessCommand.Of(session),
            LedgerCommand.Of(session),
            HoldCommand.Of(session),
            RetentionCommand.Of(session),
            RulesCommand.Of(session),
            KeysCommand.Of(session),
            DemoCommand.Of(session),
            ServeCommand.Of(session),
            ImportCommand.Of(session),
            AccountsCommand.Of(session),
            NoticesCommand.Of(session),
        };
}
