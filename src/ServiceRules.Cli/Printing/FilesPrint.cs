using ServiceRules.Application.Filed;
using ServiceRules.Reporting.Reports.Words;
using Spectre.Console;

namespace ServiceRules.Cli.Printing;

/// <summary>What an answer over many files rests on, in one line.</summary>
internal static class FilesPrint
{
    public static void Write(IAnsiConsole screen, FilesRead files)
    {
        List<string> parts = [ReportWords.Counted(files.Records, "record", "records")];
        if (files.Repeated > 0)
        {
            parts.Add($"{files.Repeated} met twice and counted once");
        }

        if (files.Superseded > 0)
        {
            parts.Add($"{files.Superseded} earlier stages of the same jobs left out");
        }

        if (!files.Problems.IsEmpty)
        {
            parts.Add(
                $"{ReportWords.Counted(files.Problems.Length, "file", "files")} could not be used, as told above"
            );
        }

        screen.TextLine($"Read: {string.Join(", ", parts)}.");
    }
}
