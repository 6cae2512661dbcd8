using System.Collections.Immutable;
using System.Globalization;
using System.IO.Enumeration;
using ServiceRules.Rules.Diagnostics;

namespace ServiceRules.Application.Library;

/// <summary>
/// Lists the JSON files of a folder in one order on every machine, within bounds. Whatever could be meant as a file of rules
/// and is not listed is told: rules that are silently left out loosen.
/// </summary>
internal static class FolderListing
{
    private const string Json = ".json";

    public static ImmutableArray<RuleFile> Of(string folder, FolderRemarks remarks)
    {
        List<Entry> entries;
        try
        {
            entries = [.. Entries(folder).Take(FolderLimits.Entries + 1)];
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

        List<Entry> files = [.. entries.Where(entry => !entry.IsFolder && !entry.IsLink && entry.IsJson)];
        if (TooMuch(entries, files) is var (what, right))
        {
            remarks.Add(DiagnosticCode.TooMuch, "", $"`{folder}` {what}", right);
            return [];
        }

        Unlisted(folder, entries, remarks);
        return
        [
            .. files
                .Select(file => new RuleFile(NameOf(folder, file), file.Path))
                .OrderBy(file => file.Name, StringComparer.Ordinal),
        ];
    }

    private static FileSystemEnumerable<Entry> Entries(string folder) =>
        new(
            folder,
            (ref entry) =>
                new(
                    entry.ToFullPath(),
                    entry.IsDirectory,
                    entry.Attributes.HasFlag(FileAttributes.ReparsePoint),
                    entry.IsDirectory || entry.Attributes.HasFlag(FileAttributes.ReparsePoint)
                        ? 0
                        : entry.Length
                ),
            new()
            {
                RecurseSubdirectories = true,
                // One level more than is read, so that what stands too deep is seen and told.
                MaxRecursionDepth = FolderLimits.Depth + 1,
                AttributesToSkip = FileAttributes.Hidden,
            }
        )
        {
            // What is linked stands elsewhere, and could lead anywhere, also back here.
            ShouldRecursePredicate = (ref entry) => !entry.Attributes.HasFlag(FileAttributes.ReparsePoint),
        };

    private static (string What, string Right)? TooMuch(List<Entry> entries, List<Entry> files)
    {
        if (entries.Count > FolderLimits.Entries)
        {
            return (
                "holds more than a folder of rules",
                Counted("at most {0} files and folders", FolderLimits.Entries)
            );
        }

        if (files.Count > FolderLimits.Files)
        {
            return (
                "holds more JSON files than a folder of rules",
                Counted("at most {0} files", FolderLimits.Files)
            );
        }

        return files.Sum(file => file.Length) > FolderLimits.Bytes
            ? (
                "holds larger JSON files than a folder of rules",
                Counted("at most {0} MiB together", FolderLimits.Bytes / (1024 * 1024))
            )
            : null;
    }

    private static void Unlisted(string folder, List<Entry> entries, FolderRemarks remarks)
    {
        foreach (Entry entry in entries.OrderBy(entry => entry.Path, StringComparer.Ordinal))
        {
            string name = NameOf(folder, entry);
            if (entry.IsLink && (entry.IsJson || entry.IsFolder))
            {
                remarks.Add(
                    DiagnosticCode.FileNotRead,
                    name,
                    "this is a link, and what is linked is not read",
                    "the file or folder itself"
                );
            }
            else if (entry is { IsFolder: true, IsJson: true })
            {
                remarks.Add(
                    DiagnosticCode.FileNotRead,
                    name,
                    "this is a folder with the name of a file",
                    "a file of this name, or another name for the folder"
                );
            }
            else if (entry.IsJson && name.Count(letter => letter == '/') > FolderLimits.Depth)
            {
                remarks.Add(
                    DiagnosticCode.FileNotRead,
                    name,
                    "this file stands deeper than files are read",
                    Counted("at most {0} folders within one another", FolderLimits.Depth)
                );
            }
        }
    }

    private static string NameOf(string folder, Entry entry) =>
        Path.GetRelativePath(folder, entry.Path).Replace('\\', '/');

    private static string Counted(string words, long count) =>
        string.Format(CultureInfo.InvariantCulture, words, count);

    /// <summary>A file, folder or link.</summary>
    private sealed record Entry(string Path, bool IsFolder, bool IsLink, long Length)
    {
        public bool IsJson { get; } = Path.EndsWith(Json, StringComparison.Ordinal);
    }
}
