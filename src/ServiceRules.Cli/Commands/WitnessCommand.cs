using System.CommandLine;
using ServiceRules.Application.Witnessing;
using ServiceRules.Cli.Setup;

namespace ServiceRules.Cli.Commands;

/// <summary><c>witness</c>: stands beside a log that somebody else keeps, and remembers what it said.</summary>
internal static class WitnessCommand
{
    public static Option<DirectoryInfo> Store { get; } =
        new("--store")
        {
            Description = "Private folder of the witness: its key and every checkpoint it cosigned.",
            HelpName = "DIR",
            Required = true,
        };

    public static Command Of(Session session) =>
        new(
            "witness",
            "Stands beside a log kept by somebody else: cosigns its checkpoints, never goes back, never signs two histories."
        )
        {
            WitnessAddCommand.Of(session),
            WitnessShowCommand.Of(session),
        };

    /// <summary>Runs what works on the folder of a witness; a folder that cannot be used is told as such.</summary>
    /// <exception cref="InputException">The folder cannot be used.</exception>
    public static int Told(Func<int> run)
    {
        try
        {
            return run();
        }
        catch (WitnessFolderException unusable)
        {
            throw new InputException(unusable.Message);
        }
    }
}
