using ServiceRules.TestKit;

namespace ServiceRules.Architecture.Tests;

/// <summary>The C# of this repository, as it was written.</summary>
internal static class SourceTree
{
    public static IEnumerable<(string Path, string Text)> Files(string side) =>
        Directory
            .EnumerateFiles(ReferenceFiles.InRepository(side), "*.cs", SearchOption.AllDirectories)
            .Select(file =>
                (Path.GetRelativePath(ReferenceFiles.Root, file).Replace('\\', '/'), File.ReadAllText(file))
            );
}
