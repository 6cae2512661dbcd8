using System.CommandLine;
using System.Globalization;
using ServiceRules.Application.Witnessing;
using ServiceRules.Cli.Printing;
using ServiceRules.Cli.Setup;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Cli.Commands;

/// <summary><c>witness show</c>: the witness's public key, and what it cosigned last of each log.</summary>
internal static class WitnessShowCommand
{
    private static readonly Option<string?> Log = new("--log")
    {
        Description = "Write the checkpoint of this log that was cosigned last, as it is stored.",
        HelpName = "NAME",
    };

    private static readonly Option<bool> Pem = new("--pem")
    {
        Description = "Write the witness's public key in PEM, for other tools.",
    };

    public static Command Of(Session session)
    {
        var show = new Command(
            "show",
            "Tells the witness's public key and what it cosigned last of each log."
        )
        {
            WitnessCommand.Store,
            Log,
            Pem,
        };
        show.SetAction(parsed => WitnessCommand.Told(() => Run(parsed, session)));
        return show;
    }

    private static int Run(ParseResult parsed, Session session)
    {
        var path = parsed.GetRequiredValue(WitnessCommand.Store).FullName;
        if (!WitnessFolder.Exists(path))
        {
            throw new InputException(
                $"there is no witness in `{path}`; `servicerules witness add` makes one"
            );
        }

        using var folder = WitnessFolder.Open(path, null);
        if (parsed.GetValue(Pem))
        {
            session.Output.Write(folder.Key.ToPem());
            return ExitCode.Good;
        }

        var logs = folder.Logs();
        if (parsed.GetValue(Log) is { } name)
        {
            session.Output.Write(Latest(logs, name));
            return ExitCode.Good;
        }

        session.Tell($"witness {folder.Key}");
        foreach (var log in logs)
        {
            Tell(session.Output, log);
        }

        return ExitCode.Good;
    }

    private static string Latest(IReadOnlyList<StoredLog> logs, string name) =>
        logs.FirstOrDefault(log => log.Origin == name)?.Latest?.ToString()
        ?? throw new InputException(
            $"no checkpoint of a log `{name}` is stored here; accepted: "
                + (logs.Count == 0 ? "none yet" : string.Join(", ", logs.Select(log => log.Origin)))
        );

    private static void Tell(TextWriter output, StoredLog log)
    {
        if (log is not { Latest.Head: var head, CosignedAt: { } at })
        {
            return;
        }

        output.WriteLine();
        output.WriteLine(SeenText.OneLine($"log       {log.Origin}"));
        output.WriteLine($"key id    {string.Join(", ", log.Keys.Select(key => key.IdText))}");
        output.WriteLine($"size      {Number(head.Size)}");
        output.WriteLine($"root      {head.Root}");
        output.WriteLine($"cosigned  {UtcTime.Print(at)}");
        output.WriteLine($"stored    {Number(log.Count)} checkpoints");
    }

    private static string Number(long value) => value.ToString(CultureInfo.InvariantCulture);
}
