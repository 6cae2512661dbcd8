using ServiceRules.Application.Library;
using ServiceRules.TestKit;

namespace ServiceRules.Application.Tests.Library;

/// <summary>A copy of the shipped rules in which one thing is changed.</summary>
internal sealed class SpoiltFolder : IDisposable
{
    private readonly DirectoryInfo copy = Directory.CreateTempSubdirectory("servicerules-rules-");

    public SpoiltFolder()
    {
        string shipped = ReferenceFiles.InRepository("rules");
        foreach (string file in Directory.GetFiles(shipped, "*.json", SearchOption.AllDirectories))
        {
            string target = At(Path.GetRelativePath(shipped, file));
            Directory.CreateDirectory(Path.GetDirectoryName(target)!);
            File.Copy(file, target);
        }
    }

    public string Root => copy.FullName;

    public string At(string file) => Path.Combine(copy.FullName, file);

    public void Replace(string file, string text, string by)
    {
        string old = File.ReadAllText(At(file));
        Assert.Contains(text, old, StringComparison.Ordinal);
        File.WriteAllText(At(file), ReplaceFirst(old, text, by));
    }

    public LoadedRules Load() => RuleFolder.Load(Root);

    public void Dispose() => copy.Delete(recursive: true);

    private static string ReplaceFirst(string old, string text, string by)
    {
        int at = old.IndexOf(text, StringComparison.Ordinal);
        return old[..at] + by + old[(at + text.Length)..];
    }
}
