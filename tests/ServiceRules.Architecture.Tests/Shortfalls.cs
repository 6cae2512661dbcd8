namespace ServiceRules.Architecture.Tests;

internal static class Shortfalls
{
    /// <summary>Fails with all of them, one a line: whoever mends one wants to see the rest.</summary>
    public static void None(IEnumerable<string> found, string told)
    {
        var all = found.Order(StringComparer.Ordinal).ToList();
        Assert.True(all.Count == 0, $"{told}:\n  {string.Join("\n  ", all)}");
    }
}
