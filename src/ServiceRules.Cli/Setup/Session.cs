using Spectre.Console;

namespace ServiceRules.Cli.Setup;

/// <summary>One run: where it prints, and the clock it stamps reports with.</summary>
internal sealed class Session
{
    // Redirected text is for other programs and files: they wrap as they like.
    private const int UnwrappedWidth = 10_000;

    public Session(TextWriter output, TextWriter error, TimeProvider? clock = null)
    {
        Output = output;
        Error = error;
        Clock = clock ?? TimeProvider.System;
        Screen = Open(output, Console.IsOutputRedirected || output != Console.Out);
        Progress = Open(error, Console.IsErrorRedirected || error != Console.Error);
    }

    public TextWriter Output { get; }

    public TextWriter Error { get; }

    public TimeProvider Clock { get; }

    /// <summary>Answers; coloured on a terminal only.</summary>
    public IAnsiConsole Screen { get; }

    /// <summary>Progress of long work; silent unless on a terminal.</summary>
    public IAnsiConsole Progress { get; }

    private static IAnsiConsole Open(TextWriter writer, bool isRedirected)
    {
        var console = AnsiConsole.Create(
            new AnsiConsoleSettings
            {
                Out = new AnsiConsoleOutput(writer),
                Ansi = isRedirected ? AnsiSupport.No : AnsiSupport.Detect,
                Interactive = isRedirected ? InteractionSupport.No : InteractionSupport.Detect,
            }
        );
        if (isRedirected)
        {
            console.Profile.Width = UnwrappedWidth;
        }

        return console;
    }
}
