using System.Globalization;
using System.Text.RegularExpressions;
using ServiceRules.TestKit;

namespace ServiceRules.Architecture.Tests.Documents;

/// <summary>The properties that the page on mutation testing names are there, and each is tried a thousand times.</summary>
public sealed partial class PropertyTableTests
{
    private const int Cases = 1000;

    [Fact]
    public void Properties_OfTheTable_AreTestsTriedAThousandTimes()
    {
        var page = File.ReadAllText(ReferenceFiles.InRepository("docs", "mutation.md"));
        var named = Named().Matches(page[page.IndexOf("## Properties", StringComparison.Ordinal)..]);
        var sources = SourceTree.Files("tests").ToList();
        var amiss = named
            .Select(name => (Class: name.Groups[1].Value, Method: name.Groups[2].Value))
            .Where(name =>
                !sources.Exists(source =>
                    source.Path.EndsWith($"/{name.Class}.cs", StringComparison.Ordinal)
                    && IsTried(source.Text, name.Method)
                )
            )
            .Select(name => $"{name.Class}.{name.Method}");

        Assert.True(named.Count >= 16, "too few are named");
        Shortfalls.None(amiss, "properties that are not there, or tried less than a thousand times");
    }

    [Theory]
    [InlineData("[Property(MaxTest = 1000)]\npublic Property A() =>", true)]
    [InlineData("[Property(MaxTest = 999)]\npublic Property A() =>", false)]
    [InlineData("[Properties(MaxTest = PropertyCases.Each)]\nclass X { [Property]\npublic void A()", true)]
    [InlineData("[Property]\npublic void A()", false)]
    [InlineData("[Fact]\npublic void A()", false)]
    [InlineData("[Property(MaxTest = 1_000)]\npublic void B()", false)]
    public void IsTried_ByItsAttributes_AsOften(string source, bool expected) =>
        Assert.Equal(expected, IsTried(source, "A"));

    private static bool IsTried(string source, string method)
    {
        var found = Regex.Match(source, $@"\[Property(\([^\]]*\))?\]\s+public \w+ {method}\(");
        var often = found.Groups[1].Success
            ? MaxTest().Match(found.Groups[1].Value)
            : MaxTest().Match(OfClass().Match(source).Value);
        return found.Success
            && often.Success
            && (
                often.Groups[1].Value == "PropertyCases.Each"
                || int.Parse(
                    often.Groups[1].Value.Replace("_", string.Empty, StringComparison.Ordinal),
                    CultureInfo.InvariantCulture
                ) >= Cases
            );
    }

    [GeneratedRegex("`([A-Za-z]+)\\.([A-Za-z0-9]+_[A-Za-z0-9_]+)`")]
    private static partial Regex Named();

    [GeneratedRegex("MaxTest = ([0-9_]+|PropertyCases\\.Each)")]
    private static partial Regex MaxTest();

    [GeneratedRegex("\\[Properties\\([^\n]*")]
    private static partial Regex OfClass();
}
