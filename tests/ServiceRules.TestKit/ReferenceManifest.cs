using System.Security.Cryptography;

namespace ServiceRules.TestKit;

/// <summary>
/// tests/reference/MANIFEST.sha256: one line per reference file, in the form that <c>sha256sum --check</c> reads, so
/// that an expected value cannot change unseen.
/// </summary>
public static class ReferenceManifest
{
    public const string FileName = "MANIFEST.sha256";

    public const string RefreshCommand =
        TestRun.AcceptVariable
        + "=1 dotnet test tests/ServiceRules.Architecture.Tests --filter ReferenceManifest";

    /// <summary>The manifest that the files in <paramref name="folder"/> deserve.</summary>
    public static IReadOnlyList<string> Compute(string folder) =>
        [
            .. Directory
                .EnumerateFiles(folder, "*", SearchOption.AllDirectories)
                .Select(path => (Path: path, Name: Path.GetRelativePath(folder, path).Replace('\\', '/')))
                .Where(file => file.Name != FileName)
                .OrderBy(file => file.Name, StringComparer.Ordinal)
                .Select(file =>
                    $"{Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(file.Path)))}  {file.Name}"
                ),
        ];

    /// <summary>Each file that is missing, changed or not listed, in words; empty when the manifest is true.</summary>
    public static IReadOnlyList<string> Differences(
        IReadOnlyList<string> listed,
        IReadOnlyList<string> actual
    )
    {
        var listedNames = listed.Select(NameOf).ToHashSet(StringComparer.Ordinal);
        var actualNames = actual.Select(NameOf).ToHashSet(StringComparer.Ordinal);
        return
        [
            .. listed
                .Where(line => !actualNames.Contains(NameOf(line)))
                .Select(line => $"missing: {NameOf(line)}"),
            .. actual
                .Where(line => !listedNames.Contains(NameOf(line)))
                .Select(line => $"not listed: {NameOf(line)}"),
            .. actual
                .Where(line => listedNames.Contains(NameOf(line)))
                .Except(listed, StringComparer.Ordinal)
                .Select(line => $"changed: {NameOf(line)}"),
        ];
    }

    private static string NameOf(string line) => line[(line.IndexOf("  ", StringComparison.Ordinal) + 2)..];
}
