using ServiceRules.Application.Assessing;
using ServiceRules.Application.History;
using ServiceRules.Application.Recall;
using ServiceRules.Application.Tests.Demo;
using ServiceRules.Application.Tests.Filed;
using ServiceRules.Domain.Quantities;
using ServiceRules.Formats.Records;

namespace ServiceRules.Application.Tests.History;

/// <summary>What is seeded in the demo season must be seen over its records, and nothing else must cry.</summary>
public sealed class DemoHistoryTests : IDisposable
{
    private static readonly string[] Machines = ["M-05", "M-09", "M-11"];

    private readonly RecordFiles _files = new();

    public DemoHistoryTests()
    {
        foreach (var job in DemoSeasons.Jobs.Where(job => Machines.Contains(job.Record.Machine.Id.Text)))
        {
            _files.Write(
                $"{job.Record.Id}.json",
                System.Text.Encoding.UTF8.GetString(RecordFormat.Current.Write(job.Record))
            );
        }
    }

    public void Dispose() => _files.Dispose();

    private HistoryTold Told() =>
        new TellHistory(RecordFiles.Gathering, RecordFiles.Rules.Book, RecordFiles.Rules.Site!).Tell(
            [_files.Folder],
            null,
            null,
            out _
        )!;

    [Fact]
    public void Told_DemoSeason_ShowsTheMisSetGaugeAndNoOther()
    {
        var off = Told().Gauges.Where(gauge => !gauge.Off.IsEmpty).ToList();

        var gauge = Assert.Single(off);
        Assert.Equal("HG-03", gauge.Gauge.Text);
        Assert.All(gauge.Off, check => Assert.Equal("0.06 mm", check.Error.ToString()));
        Assert.True((gauge.Off[^1].Day.DayNumber - gauge.Off[0].Day.DayNumber) <= 7);
    }

    /// <summary>U-09-3 was ground below its service limit of 190 mm, and got a new reel of 200 mm the next day.</summary>
    [Fact]
    public void Told_DemoSeason_TellsTheReelThatWasGroundAwayFromTheNewOne()
    {
        var unit = Told().Units.Single(one => one.Unit.Text == "U-09-3");

        var earlier = Assert.Single(unit.Earlier);
        Assert.True(earlier.Size < Length.FromMillimetres(190m));
        Assert.Equal(200m, decimal.Round(unit.Sizes[0].Last.Value.Millimetres, 1));
    }

    [Fact]
    public void Told_DemoSeason_CriesNoWolf()
    {
        var told = Told();

        Assert.DoesNotContain(told.Actions, action => action.Due is null);
        Assert.All(told.GaugePairs, pair => Assert.Equal(0, pair.Disagreeing));
    }

    /// <summary>
    /// The gauge was off in seven jobs, which were all kept in for it; with its readings corrected nothing that went out
    /// was wrong.
    /// </summary>
    [Fact]
    public void Recall_DemoMisSetGauge_IsSeenInSevenJobsAndUndoesNoRelease()
    {
        var recalled = new RecallGauge(
            RecordFiles.Gathering,
            new AssessRecord(RecordFiles.Rules.Book, RecordFiles.Rules.Site!)
        ).Recall(
            new FoundError { Instrument = new("HG-03"), Error = PrintedLength.Parse("0.06 mm").OrThrow() },
            [_files.Folder]
        );

        Assert.Equal(7, recalled.Records.Count(record => record.OnTheDay == ErrorOnTheDay.InFull));
        Assert.DoesNotContain(recalled.Records, record => record.OnTheDay == ErrorOnTheDay.NotKnown);
        Assert.Empty(recalled.InDoubt);
    }
}
