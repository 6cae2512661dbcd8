using ServiceRules.Formats.Json;

namespace ServiceRules.Cli.Printing;

/// <summary>Every problem of an unreadable file, one a line, as editors and people find them.</summary>
internal static class ProblemPrint
{
    public static void Write(TextWriter error, string file, ProblemReport problems)
    {
        foreach (var line in problems.Lines())
        {
            error.WriteLine($"{file}: {line}");
        }
    }
}
