using System.Text;
using ServiceRules.TestKit;

namespace ServiceRules.Cli.Tests;

/// <summary>Records that ship with the rules, and small changes to them.</summary>
internal static class Fixtures
{
    public static byte[] Bytes(string name) => File.ReadAllBytes(PathOf(name));

    public static string Text(string name) => File.ReadAllText(PathOf(name));

    public static string PathOf(string name) =>
        ReferenceFiles.InRepository("rules", "base", "fixtures", name + ".record.json");

    public static byte[] Changed(string name, params (string From, string To)[] changes) =>
        Encoding.UTF8.GetBytes(
            changes.Aggregate(
                Text(name),
                (text, change) =>
                    text.Contains(change.From, StringComparison.Ordinal)
                        ? text.Replace(change.From, change.To, StringComparison.Ordinal)
                        : throw new ArgumentException($"`{change.From}` does not stand in {name}")
            )
        );
}
