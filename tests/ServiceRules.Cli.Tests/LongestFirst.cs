using ServiceRules.Cli.Tests;
using Xunit.Abstractions;

[assembly: TestCollectionOrderer("ServiceRules.Cli.Tests." + nameof(LongestFirst), "ServiceRules.Cli.Tests")]

namespace ServiceRules.Cli.Tests;

/// <summary>Pages that are typed from end to end are begun first, so that nothing waits for them alone at the end.</summary>
public sealed class LongestFirst : ITestCollectionOrderer
{
    public IEnumerable<ITestCollection> OrderTestCollections(IEnumerable<ITestCollection> testCollections) =>
        testCollections.OrderBy(collection =>
            collection.DisplayName.EndsWith("PageTests", StringComparison.Ordinal) ? 0 : 1
        );
}
