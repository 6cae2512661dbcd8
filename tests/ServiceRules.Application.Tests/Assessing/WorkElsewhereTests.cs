using ServiceRules.Application.Assessing;
using ServiceRules.Application.Tests.Demo;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Application.Tests.Assessing;

public sealed class WorkElsewhereTests
{
    private static readonly ServiceRecord Morning = Job(
        "J-1",
        "M-01",
        Entry("08:00", TimelineEventKind.LockApplied, "tech-01", "L-11"),
        Entry("08:10", TimelineEventKind.WorkStarted, "tech-01"),
        Entry("09:00", TimelineEventKind.WorkStopped, "tech-01"),
        Entry("09:10", TimelineEventKind.LockRemoved, "tech-01", "L-11")
    );

    [Fact]
    public void Beside_SameHourAtAnotherMachine_TellsPersonAndLock()
    {
        var other = Moved(Morning, "J-2", "M-02");

        var beside = Beside(Morning, other);

        Assert.Equal(2, beside.Count);
        var hung = Assert.IsType<LockElsewhere>(beside[0]);
        Assert.Equal(("L-11", "M-02"), (hung.Lock.Text, hung.Machine.Text));
        Assert.EndsWith("09:10:00+01:00", hung.Until!.Text, StringComparison.Ordinal);
        var at = Assert.IsType<PersonElsewhere>(beside[1]);
        Assert.Equal(("tech-01", "M-02"), (at.Person.Text, at.Machine.Text));
    }

    [Fact]
    public void Beside_SameMachine_TellsNothing() =>
        Assert.Empty(Beside(Morning, Moved(Morning, "J-2", "M-01")));

    [Fact]
    public void Beside_OwnRecordAmongTheOthers_TellsNothing() => Assert.Empty(Beside(Morning, Morning));

    [Fact]
    public void Beside_AnotherDay_TellsNothing()
    {
        var next = Moved(Morning, "J-2", "M-02") with
        {
            Timeline =
            [
                .. Morning.Timeline.Select(entry =>
                    entry with
                    {
                        At = Time(entry.At.Text.Replace("04-13", "04-14", StringComparison.Ordinal)),
                    }
                ),
            ],
        };

        Assert.Empty(Beside(Morning, next));
    }

    /// <summary>An end of work that nobody entered in January shows nobody anywhere in April.</summary>
    [Fact]
    public void Beside_WorkWithoutAnEnd_LastsNoLongerThanItsRecord()
    {
        var left = Job("J-0", "M-02", Entry("06:00", TimelineEventKind.WorkStarted, "tech-01"));
        var signedLater = left with { SignOff = new(new("tech-01"), Time("2026-04-13T08:30:00+01:00")) };

        Assert.Empty(Beside(Morning, left));
        var at = Assert.IsType<PersonElsewhere>(Assert.Single(Beside(Morning, signedLater)));
        Assert.Equal(signedLater.SignOff.At, at.Until);
    }

    /// <summary>One entry received twice is one lock put on once.</summary>
    [Fact]
    public void Beside_EntryReceivedTwice_CountsOnce()
    {
        var on = Entry("06:00", TimelineEventKind.LockApplied, "tech-02", "L-11") with { EventId = "e-1" };
        var off = Entry("06:10", TimelineEventKind.LockRemoved, "tech-02", "L-11");

        Assert.Empty(
            Beside(Morning, Job("J-0", "M-02", on, off, on with { At = Time("2026-04-13T06:20:00+01:00") }))
        );
    }

    [Fact]
    public void Beside_LockNeverTakenOff_HangsThereStill()
    {
        var left = Job("J-0", "M-02", Entry("06:00", TimelineEventKind.LockApplied, "tech-02", "L-11"));

        var hung = Assert.IsType<LockElsewhere>(Assert.Single(Beside(Morning, left)));

        Assert.Null(hung.Until);
    }

    [Fact]
    public void Assess_BesideTheOthers_FreezesWhatTheyShow()
    {
        var jobs = DemoSeasons.Jobs.Take(2).Select(job => job.Record).ToList();
        var again = jobs[0] with { Id = new("J-again"), Machine = jobs[0].Machine with { Id = new("M-04") } };
        var judging = new AssessRecord(DemoSeasons.Rules.Book, DemoSeasons.Site);

        Assert.Empty(judging.Assess(jobs[0]).Context.Elsewhere);
        Assert.NotEmpty(judging.Beside([.. jobs, again]).Assess(jobs[0]).Context.Elsewhere);
    }

    private static List<Elsewhere> Beside(ServiceRecord record, params ServiceRecord[] others) =>
        [.. WorkElsewhere.Of([record, .. others], DemoSeasons.Site.Zone).Beside(record)];

    private static ServiceRecord Moved(ServiceRecord record, string id, string machine) =>
        record with
        {
            Id = new(id),
            Machine = new(new(machine), null, null),
        };

    private static ServiceRecord Job(string id, string machine, params TimelineEvent[] timeline) =>
        new()
        {
            Id = new(id),
            Date = new(2026, 4, 13),
            Machine = new(new(machine), null, null),
            Tasks = [ServiceTask.HeightCheck],
            People = [new(new("tech-01"), JobRole.Performs)],
            Units = [],
            Timeline = [.. timeline],
        };

    private static TimelineEvent Entry(
        string clock,
        TimelineEventKind kind,
        string by,
        string? device = null
    ) =>
        new()
        {
            Kind = kind,
            At = Time($"2026-04-13T{clock}:00+01:00"),
            Actor = new(by),
            Source = device is null ? null : new SourceReference.One(new("engine_start")),
            Lock = device is null ? null : new Id<LockDevice>(device),
        };

    private static RecordedTime Time(string text) => RecordedTime.Parse(text).OrThrow();
}
