using ServiceRules.Cli.Printing;
using Spectre.Console;

namespace ServiceRules.Cli.Setup;

/// <summary>One run: where it prints, and the clock it stamps reports with.</summary>
internal sealed class Session
{
    // Redirected text is for other programs and files: they wrap as they like.
    private const int UnwrappedWidth = 10_000;

    public Session(
        TextWriter output,
        TextWriter error,
        TimeProvider? clock = null,
        TextReader? answers = null
    )
    {
        var isRedirected = Console.IsOutputRedirected || output != Console.Out;
        // What goes to a file or a program has to arrive as it is.
        Output = isRedirected ? output : new SeenWriter(output);
        Error = new SeenWriter(error);
        Clock = clock ?? TimeProvider.System;
        Answers = answers ?? (Console.IsInputRedirected ? null : Console.In);
        Screen = Open(output, isRedirected);
        Progress = Open(error, Console.IsErrorRedirected || error != Console.Error);
    }

    /// <summary>What is given out byte for byte: texts and documents for other programs.</summary>
    public TextWriter Output { get; }

    public TextWriter Error { get; }

    public TimeProvider Clock { get; }

    /// <summary>Where somebody answers what is asked; null when nobody sits at a terminal.</summary>
    public TextReader? Answers { get; }

    /// <summary>What is told; coloured on a terminal only.</summary>
    public IAnsiConsole Screen { get; }

    /// <summary>Progress of long work; silent unless on a terminal.</summary>
    public IAnsiConsole Progress { get; }

    /// <summary>One line that is told of what was done, with the names of files and people in it.</summary>
    public void Tell(string line) => Output.WriteLine(SeenText.OneLine(line));

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

        console.Pipeline.Attach(new SeenSegments());
        return console;
    }
}
