namespace ServiceRules.TestKit;

/// <summary>Finds the files of this repository from a running test binary, wherever it was built.</summary>
public static class ReferenceFiles
{
    private const string SolutionFile = "ServiceRules.sln";

    /// <summary>The folder of the solution file: the nearest one above the test binary.</summary>
    public static string Root { get; } = FindRoot();

    /// <summary>A file or folder below tests/reference, for instance <c>At("evidence", "jcs")</c>.</summary>
    public static string At(params string[] path) =>
        Existing(Path.Combine([Root, "tests", "reference", .. path]));

    /// <summary>A file or folder anywhere in the repository, for instance <c>InRepository("rules", "base")</c>.</summary>
    public static string InRepository(params string[] path) => Existing(Path.Combine([Root, .. path]));

    /// <summary>The text of a file below tests/reference.</summary>
    public static string ReadText(params string[] path) => File.ReadAllText(At(path));

    /// <summary>The bytes of a file below tests/reference.</summary>
    public static byte[] ReadBytes(params string[] path) => File.ReadAllBytes(At(path));

    /// <summary>
    /// The lines of a CSV file below tests/reference, without its leading <c>#</c> comments; the header line stays.
    /// </summary>
    public static IReadOnlyList<string> ReadRows(params string[] path) =>
        [
            .. File.ReadAllLines(At(path))
                .SkipWhile(line => line.StartsWith('#'))
                .Where(line => line.Length > 0),
        ];

    private static string Existing(string path) =>
        File.Exists(path) || Directory.Exists(path)
            ? path
            : throw new FileNotFoundException($"`{path}` is not in the repository", path);

    private static string FindRoot()
    {
        for (
            var folder = AppContext.BaseDirectory;
            folder is not null;
            folder = Path.GetDirectoryName(folder)
        )
        {
            if (File.Exists(Path.Combine(folder, SolutionFile)))
            {
                return folder;
            }
        }

        throw new DirectoryNotFoundException(
            $"no {SolutionFile} in any folder above `{AppContext.BaseDirectory}`"
        );
    }
}
