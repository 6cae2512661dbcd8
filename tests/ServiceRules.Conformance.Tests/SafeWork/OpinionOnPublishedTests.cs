using ServiceRules.Oracle;
using ServiceRules.Oracle.SafeWork;

namespace ServiceRules.Conformance.Tests.SafeWork;

/// <summary>
/// The naive evaluator against the thirty published timelines, whose breaches were written down by hand: exactly the
/// listed rows. What it says of the product is worth only as much as this.
/// </summary>
public sealed class OpinionOnPublishedTests
{
    public static TheoryData<string> Names() => [.. PublishedTimeline.Names()];

    [Fact]
    public void Names_Published_AreThirty() => Assert.Equal(30, PublishedTimeline.Names().Count());

    [Theory]
    [MemberData(nameof(Names))]
    public void Of_PublishedTimeline_BreachesExactlyTheListedRows(string name)
    {
        PublishedTimeline told = PublishedTimeline.Read(name);

        IReadOnlyDictionary<string, Possible> opinions = SafeWorkOpinion.Of(told.Record, told.Context);

        Assert.Equal(
            told.Breaches.Order(StringComparer.Ordinal),
            opinions
                .Where(row => row.Value == Sure(row.Key))
                .Select(row => row.Key)
                .Except(told.Unproven)
                .Order(StringComparer.Ordinal)
        );
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Of_PublishedTimeline_LeavesTheListedRowsUnproven(string name)
    {
        PublishedTimeline told = PublishedTimeline.Read(name);

        IReadOnlyDictionary<string, Possible> opinions = SafeWorkOpinion.Of(told.Record, told.Context);

        Assert.All(told.Unproven, row => Assert.Equal(Possible.Unproven, opinions[row]));
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Of_PublishedTimeline_LeavesFewRowsOpen(string name)
    {
        PublishedTimeline told = PublishedTimeline.Read(name);

        var open = SafeWorkOpinion
            .Of(told.Record, told.Context)
            .Where(row => !told.Breaches.Contains(row.Key) && row.Value.HasFlag(Possible.NotMet))
            .Select(row => $"{row.Key} {row.Value}")
            .ToList();

        Assert.True(open.Count <= 4, string.Join(", ", open));
    }

    /// <summary>A flag about credibility is unproven; any other listed row is a breach.</summary>
    private static Possible Sure(string row) =>
        row.StartsWith("cred.", StringComparison.Ordinal) ? Possible.Unproven : Possible.NotMet;
}
