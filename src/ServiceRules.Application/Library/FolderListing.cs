using System.Collections.Immutable;
using ServiceRules.Rules.Diagnostics;

namespace ServiceRules.Application.Library;

/// <summary>Lists the JSON files of a folder in one order on every machine, within bounds.</summary>
internal static class FolderListing
{
    public static ImmutableArray<RuleFile> Of(string folder, FolderRemarks remarks)
    {
        EnumerationOptions options = new()
        {
            RecurseSubdirectories = true,
            MaxRecursionDepth = FolderLimits.Depth,
            // What is linked stands elsewhere, and could lead anywhere.
            AttributesToSkip = FileAttributes.ReparsePoint | FileAttributes.Hidden,
            MatchCasing = MatchCasing.CaseSensitive,
        };
        List<RuleFile> files;
        try
        {
            files =
            [
                .. Directory
                    .EnumerateFiles(folder, "*.json", options)
                    .Take(FolderLimits.Files + 1)
                    .Select(path => new RuleFile(
                        Path.GetRelativePath(folder, path).Replace('\\', '/'),
                        path
                    )),
            ];
        }
        catch (Exception wrong) when (wrong is IOException or UnauthorizedAccessException)
        {
            remarks.Add(
                DiagnosticCode.CannotBeRead,
                "",
                $"`{folder}` cannot be read as a folder",
                "a folder of rules"
            );
            return [];
        }

        if (files.Count > FolderLimits.Files)
        {
            remarks.Add(
                DiagnosticCode.TooMuch,
                "",
                $"`{folder}` holds more JSON files than a folder of rules",
                string.Create(
                    System.Globalization.CultureInfo.InvariantCulture,
                    $"at most {FolderLimits.Files} files"
                )
            );
            return [];
        }

        return [.. files.OrderBy(file => file.Name, StringComparer.Ordinal)];
    }
}
