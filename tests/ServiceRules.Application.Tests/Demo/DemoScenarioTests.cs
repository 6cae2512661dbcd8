using ServiceRules.Application.Demo;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Formats.Records;

namespace ServiceRules.Application.Tests.Demo;

/// <summary>The generated jobs by themselves: readable, unique, possible in the workshop, and as the scenario says.</summary>
public sealed class DemoScenarioTests
{
    [Fact]
    public void Make_SameSeed_SameBytes()
    {
        var again = DemoScenario.Make(DemoScenario.UsualSeed, DemoSeasons.Site);

        Assert.Equal(
            DemoSeasons.Jobs.Select(job => Convert.ToHexString(RecordFormat.Current.Write(job.Record))),
            again.Select(job => Convert.ToHexString(RecordFormat.Current.Write(job.Record)))
        );
    }

    [Fact]
    public void Make_AnotherSeed_OtherReadingsAndTheSameFaults()
    {
        var other = DemoScenario.Make(77, DemoSeasons.Site);

        Assert.Equal(Faults(DemoSeasons.Jobs), Faults(other));
        Assert.NotEqual(
            RecordFormat.Current.Write(DemoSeasons.Jobs[0].Record),
            RecordFormat.Current.Write(other[0].Record)
        );
    }

    [Fact]
    public void Make_EveryJob_IsReadByTheStrictReader()
    {
        var problems = DemoSeasons
            .Jobs.Select(job =>
                (job.Record.Id, Read: RecordFormat.Current.Read(RecordFormat.Current.Write(job.Record)))
            )
            .Where(item => !item.Read.TryGet(out _, out _))
            .Select(item => $"{item.Id}: {item.Read.Problems}");

        Assert.Equal([], problems);
    }

    [Fact]
    public void Make_Jobs_SeveralHundredOverTwoSeasonsWithUniqueIds()
    {
        var records = DemoSeasons.Jobs.Select(job => job.Record).ToList();

        Assert.InRange(records.Count, 300, 700);
        Assert.Equal(records.Count, records.Select(record => record.Id).Distinct().Count());
        Assert.All(records, record => Assert.InRange(record.Date.Month, 3, 10));
        Assert.Equal([2025, 2026], records.Select(record => record.Date.Year).Distinct());
    }

    [Fact]
    public void Make_Units_ThirtyFourOnElevenMachines()
    {
        var onMachine = DemoSeasons
            .Jobs.Select(job => job.Record)
            .Where(record => record.Place is WorkPlace.OnMachine)
            .ToList();

        Assert.Equal(11, onMachine.Select(record => record.Machine.Id).Distinct().Count());
        Assert.Equal(
            34,
            onMachine.SelectMany(record => record.Units).Select(unit => unit.Id).Distinct().Count()
        );
    }

    [Fact]
    public void Make_EveryKindOfFault_IsSeeded() =>
        Assert.Equal(
            Enum.GetValues<SeededFaultKind>(),
            DemoSeasons
                .Jobs.Select(job => job.Fault)
                .OfType<SeededFault>()
                .Select(fault => fault.Kind)
                .Distinct()
                .Order()
        );

    [Fact]
    public void Make_MostJobs_AreShortAndSound()
    {
        var jobs = DemoSeasons.Jobs;

        Assert.True(jobs.Count(job => IsShort(job.Record)) > jobs.Length * 3 / 4);
        Assert.True(jobs.Count(job => job.Fault is null) > jobs.Length * 9 / 10);
    }

    [Fact]
    public void Make_TwelveUnitsOnTheBench_AtMostThirtyEntries()
    {
        var twelve = DemoSeasons.Jobs.Select(job => job.Record).Single(record => record.Units.Length == 12);

        Assert.Equal(WorkPlace.OnBench, twelve.Place);
        Assert.InRange(twelve.Units.Sum(unit => unit.Entries.Length), 24, 30);
    }

    /// <summary>Nobody is in two places, and no machine either.</summary>
    [Fact]
    public void Make_Jobs_NobodyWorksOnTwoAtOnce()
    {
        var busy = DemoSeasons
            .Jobs.Select(job => job.Record)
            .SelectMany(record =>
                record
                    .People.Where(person => person.Role is JobRole.Performs or JobRole.Assists)
                    .Select(person =>
                        (Who: person.Id.Text, record.Id, From: First(record), Until: Last(record))
                    )
            )
            .GroupBy(stay => stay.Who);

        Assert.All(
            busy,
            person =>
            {
                var stays = person.OrderBy(stay => stay.From).ToList();
                Assert.All(
                    stays.Zip(stays.Skip(1)),
                    pair =>
                        Assert.True(pair.First.Until <= pair.Second.From, $"{pair.First} and {pair.Second}")
                );
            }
        );
    }

    [Fact]
    public void Make_Jobs_DoneByDayButForTheTwoThatSaySo() =>
        Assert.All(
            DemoSeasons.Jobs.Where(job => job.LeaveAlone is null),
            job =>
            {
                var clock = ((RecordedTime.Instant)job.Record.Timeline[0].At).Moment;
                var hour = (clock.Utc.Hour + (DemoSeasons.Site.Zone.OffsetMinutesAt(clock) / 60)) % 24;
                Assert.InRange(hour, 6, 17);
                Assert.True(Last(job.Record) - First(job.Record) < TimeSpan.FromHours(9), $"{job.Record.Id}");
            }
        );

    [Fact]
    public void Make_ReelsOfOneMachine_OnlyShrinkUntilReplaced()
    {
        var diameters = DemoSeasons
            .Jobs.SelectMany(job => job.Record.Units)
            .SelectMany(unit =>
                unit.Entries.OfType<Reading>()
                    .Where(reading => reading.Quantity is MeasuredQuantity.ReelDiameter)
                    .Select(reading =>
                        (
                            Reel: $"{unit.Id} {unit.Reel}",
                            ((Observation.Measured)reading.Observed).Value.Value.Millimetres
                        )
                    )
            )
            .GroupBy(item => item.Reel, item => item.Millimetres);

        // A tape shows the same reel within a few hundredths.
        Assert.All(
            diameters,
            reel => Assert.All(reel.Zip(reel.Skip(1)), pair => Assert.True(pair.Second <= pair.First + 0.06m))
        );
    }

    private static IEnumerable<string> Faults(IEnumerable<DemoJob> jobs) =>
        jobs.Select(job => $"{job.Record.Id} {job.Fault?.Kind}");

    private static bool IsShort(ServiceRecord record) =>
        record.Tasks.All(task =>
            task is ServiceTask.DailyCheck or ServiceTask.HeightCheck or ServiceTask.TouchUp
        );

    private static Moment First(ServiceRecord record) => ((RecordedTime.Instant)record.Timeline[0].At).Moment;

    private static Moment Last(ServiceRecord record) => ((RecordedTime.Instant)record.Timeline[^1].At).Moment;
}
