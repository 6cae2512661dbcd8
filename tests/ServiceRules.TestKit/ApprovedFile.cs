using System.Runtime.CompilerServices;

namespace ServiceRules.TestKit;

/// <summary>
/// Compares a text with the one a person approved, kept in <c>Approved/</c> beside the test. On a difference the new
/// text is written next to it as <c>.received</c>; <see cref="TestRun.AcceptVariable"/> makes it the approved one.
/// </summary>
public static class ApprovedFile
{
    /// <summary>Fails unless <paramref name="actual"/> equals <c>Approved/name</c> beside the calling test, exactly.</summary>
    public static void Matches(string actual, string name, [CallerFilePath] string testFile = "") =>
        Compare(actual, Path.Combine(FolderOf(testFile), "Approved", name), TestRun.IsAccepting);

    /// <summary>Fails unless <paramref name="actual"/> equals the file at this place of the repository, exactly.</summary>
    public static void MatchesAt(string actual, params string[] place) =>
        Compare(actual, Path.Combine([ReferenceFiles.Root, .. place]), TestRun.IsAccepting);

    internal static void Compare(string actual, string approvedPath, bool accept)
    {
        var receivedPath = Path.ChangeExtension(approvedPath, ".received" + Path.GetExtension(approvedPath));
        var approved = File.Exists(approvedPath) ? File.ReadAllText(approvedPath) : null;
        if (string.Equals(actual, approved, StringComparison.Ordinal))
        {
            File.Delete(receivedPath);
            return;
        }

        _ = Directory.CreateDirectory(Path.GetDirectoryName(approvedPath)!);
        if (accept)
        {
            File.WriteAllText(approvedPath, actual);
            File.Delete(receivedPath);
            return;
        }

        File.WriteAllText(receivedPath, actual);
        throw new InvalidOperationException(
            $"{Describe(actual, approved)}; compare `{receivedPath}` with `{approvedPath}`, and if the new text is right "
                + $"run the test with {TestRun.AcceptVariable}=1"
        );
    }

    private static string Describe(string actual, string? approved)
    {
        if (approved is null)
        {
            return "nothing is approved yet";
        }

        var (now, before) = (actual.Split('\n'), approved.Split('\n'));
        var line = now.Zip(before)
            .TakeWhile(pair => string.Equals(pair.First, pair.Second, StringComparison.Ordinal))
            .Count();
        var found = line < now.Length ? now[line] : "(end of text)";
        var expected = line < before.Length ? before[line] : "(end of text)";
        return FormattableString.Invariant($"line {line + 1} is `{found}`, approved is `{expected}`");
    }

    // A deterministic build records paths that exist on no machine; from tests/ on they are true.
    private static string FolderOf(string testFile)
    {
        var path = testFile.Replace('\\', '/');
        var tests = path.LastIndexOf("/tests/", StringComparison.Ordinal);
        return Path.GetDirectoryName(Path.Combine(ReferenceFiles.Root, path[(tests + 1)..]))!;
    }
}
