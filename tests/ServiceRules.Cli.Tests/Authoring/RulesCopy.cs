using ServiceRules.TestKit;

namespace ServiceRules.Cli.Tests.Authoring;

/// <summary>A copy of the shipped rules that a test may write into.</summary>
internal static class RulesCopy
{
    public static string Shipped => ReferenceFiles.InRepository("rules");

    public static string In(Product product, string name = "rules")
    {
        foreach (var file in Directory.GetFiles(Shipped, "*.json", SearchOption.AllDirectories))
        {
            product.Write(Path.Combine(name, Path.GetRelativePath(Shipped, file)), File.ReadAllBytes(file));
        }

        return product.At(name);
    }

    /// <summary>Everything that stands in a folder, to see that nothing changed.</summary>
    public static string Everything(string folder) =>
        string.Join(
            '\n',
            Directory
                .EnumerateFiles(folder, "*", SearchOption.AllDirectories)
                .Order(StringComparer.Ordinal)
                .Select(file => $"{file}\n{File.ReadAllText(file)}")
        );
}
