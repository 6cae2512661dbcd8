namespace ServiceRules.Cli.Setup;

/// <summary>Where a path really leads: links on the way are followed, whether or not there is anything at the end.</summary>
internal static class RealPath
{
    /// <summary>As many links as Linux follows before it takes them for a ring.</summary>
    private const int LinksMost = 40;

    public static string Of(string path) => Of(path, LinksMost);

    private static string Of(string path, int links)
    {
        var full = Path.GetFullPath(path);
        var real = Path.GetPathRoot(full)!;
        foreach (var part in Path.GetRelativePath(real, full).Split(Path.DirectorySeparatorChar))
        {
            var next = Path.Combine(real, part);
            real =
                links > 0 && new DirectoryInfo(next).LinkTarget is { } target
                    ? Of(Path.Combine(real, target), --links)
                    : next;
        }

        return Path.TrimEndingDirectorySeparator(Path.GetFullPath(real));
    }
}
