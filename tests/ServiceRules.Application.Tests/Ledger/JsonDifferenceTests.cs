using System.Text;
using ServiceRules.Application.Ledger;

namespace ServiceRules.Application.Tests.Ledger;

public sealed class JsonDifferenceTests
{
    [Theory]
    [InlineData("""{"a":1}""", """{"a":1}""", "")]
    [InlineData("""{"a":1}""", """{"a":2}""", "/a: 1 -> 2")]
    [InlineData("""{"a":1}""", """{"b":1}""", "/a: 1 -> | /b: -> 1")]
    [InlineData(
        """{"a":{"x/y":1,"m~n":2}}""",
        """{"a":{"x/y":3,"m~n":4}}""",
        "/a/x~1y: 1 -> 3 | /a/m~0n: 2 -> 4"
    )]
    [InlineData("""{"a":[1,2,3]}""", """{"a":[1,9,2,3]}""", "/a/1: -> 9")]
    [InlineData("""{"a":[1,2,3]}""", """{"a":[1,3]}""", "/a/1: 2 -> ")]
    [InlineData(
        """{"a":[{"v":1},{"v":2},{"v":3}]}""",
        """{"a":[{"v":1},{"v":7},{"v":3}]}""",
        "/a/1/v: 2 -> 7"
    )]
    [InlineData("""{"a":[1]}""", """{"a":{"b":1}}""", """/a: [1] -> {"b":1}""")]
    [InlineData("[1,2]", "[2,1]", "/0: 1 -> | /1: -> 1")]
    public void Between_TwoVersions_TellsEachChangeWithItsPlace(string before, string after, string told)
    {
        var changes = JsonDifference.Between(Encoding.UTF8.GetBytes(before), Encoding.UTF8.GetBytes(after));

        Assert.Equal(
            told,
            string.Join(" | ", changes.Select(change => $"{change.Pointer}: {change.Old} -> {change.New}"))
                .Replace(":  ->", ": ->", StringComparison.Ordinal)
                .Replace("-> |", "-> |", StringComparison.Ordinal)
                .Replace(" ->  |", " -> |", StringComparison.Ordinal)
        );
    }
}
