using Spectre.Console;

namespace ServiceRules.Cli.Printing;

/// <summary>Does long work one piece at a time, showing how far it is on a terminal and nothing elsewhere.</summary>
internal static class ProgressLine
{
    public static void Run<T>(
        IAnsiConsole console,
        string what,
        IReadOnlyCollection<T> pieces,
        Action<T> work
    )
    {
        if (!console.Profile.Capabilities.Interactive)
        {
            foreach (var piece in pieces)
            {
                work(piece);
            }

            return;
        }

        console
            .Progress()
            .AutoClear(true)
            .Start(progress =>
            {
                var task = progress.AddTask(what, maxValue: Math.Max(1, pieces.Count));
                foreach (var piece in pieces)
                {
                    work(piece);
                    task.Increment(1);
                }
            });
    }

    /// <summary>The same for work that tells each time that a piece is done, from whatever thread.</summary>
    public static T Run<T>(IAnsiConsole console, string what, int pieces, Func<Action, T> work) =>
        console.Profile.Capabilities.Interactive
            ? console
                .Progress()
                .AutoClear(true)
                .Start(progress =>
                {
                    var task = progress.AddTask(what, maxValue: Math.Max(1, pieces));
                    return work(() => task.Increment(1));
                })
            : work(() => { });
}
