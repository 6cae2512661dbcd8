using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Application.Tests.SafeWork;

/// <summary>Numbers that the counter of a device leaves out between its entries are told, and hold nothing.</summary>
public sealed class NumbersLeftOutTests
{
    [Fact]
    public void Sequence_WithNumbersLeftOut_IsTold()
    {
        Assessment found = Numbered(at =>
                at < 3 ? at + 1
                : at < 9 ? at + 2
                : at + 5
            )
            .Judge();

        Assert.Equal(
            "Device tab-1 leaves out 4 and 11 to 13 between its entries: what it entered under these numbers the record does not show.",
            Assert.Single(Notices(found))
        );
        Assert.Equal(Disposition.Release, found.Job.Disposition);
    }

    [Fact]
    public void Sequence_WithoutGaps_IsSilent() => Assert.Empty(Notices(Numbered(at => at + 7).Judge()));

    private static IEnumerable<string> Notices(Assessment found) =>
        found
            .Findings.SelectMany(one => one.Notices)
            .Where(notice => notice.Contains("leaves out", StringComparison.Ordinal));

    private static EditedJob Numbered(Func<int, int> number)
    {
        int at = 0;
        return EditedJob
            .Of("height-check")
            .Without("energy_reviewed")
            .With("energy_reviewed", "08:00:30", "tech-02")
            .InOrderOfTime()
            .Change(
                _ => true,
                entry =>
                {
                    entry["device"] = "tab-1";
                    entry["sequence"] = number(at++);
                }
            );
    }
}
