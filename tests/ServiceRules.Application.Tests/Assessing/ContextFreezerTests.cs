using ServiceRules.Application.Assessing;
using ServiceRules.Application.Tests.Demo;

namespace ServiceRules.Application.Tests.Assessing;

public sealed class ContextFreezerTests
{
    /// <summary>The site's registers say which revision was written for which year.</summary>
    [Theory]
    [InlineData("2026-02-09", "P-ride-on-1")]
    [InlineData("2026-02-10", "P-ride-on-2")]
    public void Freeze_TwoRevisions_TakesTheOneInForceOnTheDay(string day, string expected)
    {
        var record = DemoSeasons.Jobs.First(job => job.Record.Machine.Id.Text == "M-01").Record;

        var context = ContextFreezer.Freeze(
            DemoSeasons.Site,
            record with
            {
                Date = DateOnly.ParseExact(day, "yyyy-MM-dd", null),
            }
        );

        Assert.Equal([expected], context.Procedures.Select(procedure => procedure.Id.Text));
    }
}
