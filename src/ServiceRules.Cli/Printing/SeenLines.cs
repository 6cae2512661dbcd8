using System.Runtime.CompilerServices;
using Spectre.Console;

namespace ServiceRules.Cli.Printing;

/// <summary>One line of an answer at a time: a name or a value with line breaks in it cannot begin a line of its own.</summary>
internal static class SeenLines
{
    public static void TextLine(this IAnsiConsole screen, string line) =>
        screen.WriteLine(SeenText.OneLine(line));

    /// <param name="screen">Where it is told.</param>
    /// <param name="line">Markup of our own, and what was given or found as its values.</param>
    public static void MarkedLine(this IAnsiConsole screen, FormattableString line) =>
        screen.MarkupLineInterpolated(
            FormattableStringFactory.Create(
                line.Format,
                [
                    .. line.GetArguments()
                        .Select(value => value is string text ? SeenText.OneLine(text) : value),
                ]
            )
        );
}
