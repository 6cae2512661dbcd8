using System.Collections.Immutable;
using System.IO.Enumeration;

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
        AttributesToSkip = FileAttributes.Hidden,
        IgnoreInaccessible = false,
    };

    public static IEnumerable<string> Of(IEnumerable<string> paths, ICollection<FiledProblem> problems) =>
        paths.SelectMany(path => Directory.Exists(path) ? Folder(path, problems) : [path]).Distinct();

    private static ImmutableArray<string> Folder(string folder, ICollection<FiledProblem> problems)
    {
        try
        {
            ImmutableArray<(string Path, bool IsLink)> all =
            [
                .. In(folder).Take(FilingLimits.Files + 1).OrderBy(one => one.Path, StringComparer.Ordinal),
            ];
            if (all.Length > FilingLimits.Files)
            {
                return Refused($"this folder holds more than {FilingLimits.Files} files");
            }

            foreach (var (path, _) in all.Where(one => one.IsLink))
            {
                problems.Add(
                    new(path, ["is a link to elsewhere, and was not followed; accepted: the file itself"])
                );
            }

            ImmutableArray<string> files = [.. all.Where(one => !one.IsLink).Select(one => one.Path)];
            foreach (var context in files.Where(file => IsContext(file) && !HasRecord(file, files)))
            {
                problems.Add(
                    new(
                        context,
                        [
                            "is named as a context, with no record of that name beside it, and was not read; accepted: a context beside its record, or a record under another name",
                        ]
                    )
                );
            }

            ImmutableArray<string> records = [.. files.Where(file => !IsContext(file))];
            return records.IsEmpty ? Refused("there is no record in this folder") : records;
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

    // What is linked stands elsewhere, and could lead anywhere: it is told, and not followed.
    private static FileSystemEnumerable<(string Path, bool IsLink)> In(string folder) =>
        new(
            folder,
            (ref FileSystemEntry entry) => (entry.ToSpecifiedFullPath(), IsLink(ref entry)),
            Downwards
        )
        {
            ShouldIncludePredicate = (ref FileSystemEntry entry) =>
                entry.IsDirectory ? IsLink(ref entry) : IsWanted(entry.FileName.ToString()),
            ShouldRecursePredicate = (ref FileSystemEntry entry) => !IsLink(ref entry),
        };

    private static bool IsLink(ref FileSystemEntry entry) =>
        (entry.Attributes & FileAttributes.ReparsePoint) != 0;

    private static bool IsWanted(string file) =>
        Endings.Contains(Path.GetExtension(file), StringComparer.OrdinalIgnoreCase);

    private static bool IsContext(string file) =>
        file.EndsWith(ContextEnding, StringComparison.OrdinalIgnoreCase);

    private static bool HasRecord(string context, ImmutableArray<string> files) =>
        files.Any(file => !IsContext(file) && ContextFile.Beside(file) == context);
}
