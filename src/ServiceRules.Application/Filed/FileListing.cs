using System.Collections.Immutable;

namespace ServiceRules.Application.Filed;

/// <summary>
/// The files behind the paths that somebody gave: a file stands for itself; a folder for the records (<c>*.json</c>)
/// and signed reports (<c>*.pdf</c>) in it and in the folders below it. A frozen context (<c>*.context.json</c>) belongs
/// to the record beside it and is no record.
/// </summary>
internal static class FileListing
{
    public const string ContextEnding = ".context.json";

    private const string Accepted =
        "accepted: a record (`*.json`), a signed report (`*.pdf`) or a folder of them";

    private static readonly string[] Endings = [".json", ".pdf"];

    private static readonly EnumerationOptions Downwards = new()
    {
        RecurseSubdirectories = true,
        MaxRecursionDepth = FilingLimits.Depth,
        // What is linked stands elsewhere, and could lead anywhere.
        AttributesToSkip = FileAttributes.ReparsePoint | FileAttributes.Hidden,
        IgnoreInaccessible = false,
    };

    public static IEnumerable<string> Of(IEnumerable<string> paths, ICollection<FiledProblem> problems) =>
        paths.SelectMany(path => Directory.Exists(path) ? Folder(path, problems) : [path]).Distinct();

    private static ImmutableArray<string> Folder(string folder, ICollection<FiledProblem> problems)
    {
        try
        {
            ImmutableArray<string> files =
            [
                .. Directory
                    .EnumerateFiles(folder, "*", Downwards)
                    .Where(IsWanted)
                    .Take(FilingLimits.Files + 1)
                    .Order(StringComparer.Ordinal),
            ];
            if (files.IsEmpty)
            {
                return Refused("there is no record in this folder");
            }

            return files.Length > FilingLimits.Files
                ? Refused($"this folder holds more than {FilingLimits.Files} files")
                : files;
        }
        catch (Exception wrong) when (wrong is IOException or UnauthorizedAccessException)
        {
            return Refused($"this folder cannot be read: {wrong.Message}");
        }

        ImmutableArray<string> Refused(string why)
        {
            problems.Add(new(folder, [$"{why}; {Accepted}"]));
            return [];
        }
    }

    private static bool IsWanted(string file) =>
        !file.EndsWith(ContextEnding, StringComparison.OrdinalIgnoreCase)
        && Endings.Contains(Path.GetExtension(file), StringComparer.OrdinalIgnoreCase);
}
