using System.CommandLine;
using ServiceRules.Application.Filed;
using ServiceRules.Application.Library;
using ServiceRules.Reporting.Verifying;

namespace ServiceRules.Cli.Setup;

/// <summary>Records by the file or by the folder: what is read, and how bad files are told.</summary>
internal static class RecordPaths
{
    public static Argument<string[]> Argument { get; } =
        new("FILE|DIR")
        {
            Description =
                "Service records, signed reports that carry them, or folders of both, with the folders below.",
            Arity = ArgumentArity.OneOrMore,
        };

    /// <summary>Reads records of the site. Whose signature a report bears plays no part: records bear none.</summary>
    public static RecordGathering Reading(LoadedRules loaded) =>
        new(new PdfReportReader([]), loaded.Book, loaded.Site!.Name);

    /// <summary>Every problem of every bad file, one a line, as <c>check</c> tells them.</summary>
    public static void Tell(TextWriter error, IEnumerable<FiledProblem> problems)
    {
        foreach (var problem in problems)
        {
            foreach (var line in problem.Lines)
            {
                error.WriteLine($"{problem.File}: {line}");
            }
        }
    }
}
