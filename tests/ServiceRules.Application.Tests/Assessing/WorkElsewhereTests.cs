using System.Globalization;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Tests.Demo;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Formats.Registers;

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
            Beside(
                Morning,
                Job("J-0", "M-02", on, off, on with { ReceivedAt = Time("2026-04-13T06:20:00+01:00") })
            )
        );
    }

    /// <summary>One identity and another time is another lock put on: it hangs there still.</summary>
    [Fact]
    public void Beside_IdentityOfAnotherEntry_CountsByItself()
    {
        var on = Entry("06:00", TimelineEventKind.LockApplied, "tech-02", "L-11") with { EventId = "e-1" };
        var off = Entry("06:10", TimelineEventKind.LockRemoved, "tech-02", "L-11");
        var again = on with { At = Time("2026-04-13T06:20:00+01:00") };

        var hung = Assert.IsType<LockElsewhere>(
            Assert.Single(Beside(Morning, Job("J-0", "M-02", on, off, again)))
        );

        Assert.Equal(again.At, hung.From);
    }

    /// <summary>Whoever takes up work again is at work there.</summary>
    [Fact]
    public void Beside_WorkResumedElsewhere_IsWork()
    {
        var resumed = Job(
            "J-0",
            "M-02",
            Entry("07:00", TimelineEventKind.WorkStarted, "tech-01"),
            Entry("07:10", TimelineEventKind.WorkStopped, "tech-01"),
            Entry("08:05", TimelineEventKind.ResumedWork, "tech-01"),
            Entry("08:15", TimelineEventKind.WorkStopped, "tech-01")
        );

        Assert.Contains(
            Beside(Morning, resumed).OfType<PersonElsewhere>(),
            one => one.From.Text.Contains("08:05", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Beside_LockNeverTakenOff_HangsThereStill()
    {
        var left = Job("J-0", "M-02", Entry("06:00", TimelineEventKind.LockApplied, "tech-02", "L-11"));

        var hung = Assert.IsType<LockElsewhere>(Assert.Single(Beside(Morning, left)));

        Assert.Null(hung.Until);
    }

    /// <summary>
    /// Hung in one job and never entered as taken off; hung on another machine by the same hand days later: it had come off by then,
    /// and no later job is doubted because of it. The first record is, once.
    /// </summary>
    [Theory]
    [InlineData("tech-01", false)]
    [InlineData("tech-02", true)]
    public void Beside_LockLeftAndHungElsewhereByTheSameHand_IsDoubtedThereAlone(
        string leftBy,
        bool laterIsTold
    )
    {
        var left = OnDay(
            "04-01",
            Job("J-0", "M-02", Entry("06:00", TimelineEventKind.LockApplied, leftBy, "L-11"))
        );
        var last = OnDay("04-20", Moved(Morning, "J-9", "M-03"));

        Assert.Equal(laterIsTold, Beside(Morning, left, last).OfType<LockElsewhere>().Any());
        Assert.Equal(laterIsTold, Beside(last, left, Morning).OfType<LockElsewhere>().Any());
        var told = Beside(left, last, Morning);
        Assert.Equal(laterIsTold ? 0 : 1, told.Count);
        if (told is [LockElsewhere again])
        {
            Assert.Equal(("J-1", "M-01"), (again.Record?.Text, again.Machine.Text));
            Assert.Equal(Morning.Timeline[0].At, again.From);
        }
    }

    /// <summary>Another record of the same machine that takes it off shows it off as well.</summary>
    [Fact]
    public void Beside_LockLeftAndTakenOffInALaterJobOfTheMachine_HangsUntilThen()
    {
        var left = OnDay(
            "04-01",
            Job("J-0", "M-02", Entry("06:00", TimelineEventKind.LockApplied, "tech-02", "L-11"))
        );
        var off = OnDay(
            "04-02",
            Job("J-00", "M-02", Entry("06:00", TimelineEventKind.LockRemoved, "tech-02", "L-11"))
        );

        Assert.Single(Beside(Morning, left));
        Assert.Empty(Beside(Morning, left, off));
    }

    [Fact]
    public void OtherRecords_AtTheSameMachineAtTheSameTime_TellWhatBearsOnIt()
    {
        var others = Others(Morning, Moved(Morning, "J-2", "M-01"), Moved(Morning, "J-3", "M-02"));

        var other = Assert.Single(others);
        Assert.Equal(("J-2", "M-01"), (other.Record.Text, other.Machine.Text));
        Assert.Equal(4, other.Timeline.Length);
        Assert.Empty(Others(Morning, OnDay("04-14", Moved(Morning, "J-2", "M-01"))));
    }

    /// <summary>What hangs over hands, and steps that take a hand at the unit, bear on the job as hands-on work does.</summary>
    [Theory]
    [InlineData(TimelineEventKind.UnitsLowered)]
    [InlineData(TimelineEventKind.UnitSupported)]
    [InlineData(TimelineEventKind.ReelWedged)]
    [InlineData(TimelineEventKind.GuardsRefitted)]
    public void OtherRecords_StepsAtTheUnitOfTheOther_AreTold(TimelineEventKind kind)
    {
        var other = Moved(Morning, "J-2", "M-01") with { Timeline = [Entry("08:30", kind, "tech-02")] };

        Assert.Equal(kind, Assert.Single(Assert.Single(Others(Morning, other)).Timeline).Kind);
    }

    /// <summary>What its bench log alone tells of hands, and what pressure it read, is told with the rest.</summary>
    [Fact]
    public void OtherRecords_BenchLogAndPressureOfTheOther_AreTold()
    {
        static Reading Felt(string clock) =>
            new()
            {
                Quantity = MeasuredQuantity.Clearance,
                Observed = new Observation.Contact(ContactState.Light),
                At = Time($"2026-04-13T{clock}:00+01:00"),
                By = new("tech-01"),
            };
        var read = Entry("08:20", TimelineEventKind.StoredEnergyRechecked, "tech-01") with
        {
            Pressure = Domain.Quantities.Pressure.Parse("140 bar").OrThrow(),
        };
        var other = Moved(Morning, "J-2", "M-01") with
        {
            Timeline = [.. Morning.Timeline, read],
            Units =
            [
                new()
                {
                    Id = new("U-1"),
                    Sheet = "any",
                    Entries = [Felt("08:30"), Felt("09:05")],
                },
            ],
        };

        var told = Assert.Single(Others(Morning, other));

        Assert.Equal(
            new BenchTold(
                new("U-1"),
                BenchAct.ContactFelt,
                Time("2026-04-13T09:05:00+01:00"),
                new("tech-01")
            ),
            Assert.Single(told.Bench)
        );
        Assert.Contains(told.Timeline, entry => entry.Pressure == read.Pressure);
    }

    /// <summary>
    /// Of a record that goes on for months no more of the bench log is told than what falls into the job; and a context can be read
    /// back, however much a record holds.
    /// </summary>
    [Theory]
    [InlineData("2026-04-12T08:30:00+01:00", 0)]
    [InlineData("2026-04-13T08:30:00+01:00", 40 * 500)]
    [InlineData("2026-04-15T08:30:00+01:00", 0)]
    public void OtherRecords_LongBenchLog_IsToldForTheTimeOfTheJobAndReadAgain(string at, int told)
    {
        var entry = new PartFitted
        {
            Part = PartKind.Bedknife,
            At = Time(at),
            By = new("tech-02"),
        };
        var other = Job(
            "J-2",
            "M-01",
            OnDay("04-01", Morning).Timeline[1] with
            {
                Actor = new("tech-03"),
            },
            OnDay("04-30", Morning).Timeline[2] with
            {
                Actor = new("tech-03"),
            }
        ) with
        {
            Units =
            [
                .. Enumerable
                    .Range(0, 40)
                    .Select(unit => new UnitWork
                    {
                        Id = new($"U-{unit}"),
                        Sheet = "any",
                        Entries = [.. Enumerable.Repeat<BenchEntry>(entry, 500)],
                    }),
            ],
        };
        var site = DemoSeasons.Site;

        var context = ContextFreezer.Freeze(
            site,
            Signed(Morning),
            WorkElsewhere.Of([Signed(Morning), other], site.Zone)
        );

        Assert.Equal(told, Assert.Single(context.OtherRecords).Bench.Length);
        Assert.True(ContextFormat.Current.Read(ContextFormat.Current.Write(context)).TryGet(out _, out _));
    }

    /// <summary>A defect left open bears on every later job of the machine, and the next start of it on the record that left it.</summary>
    [Fact]
    public void OtherRecords_DefectLeftOpen_BearsOnLaterJobs()
    {
        var found = OnDay(
            "04-01",
            Signed(Job("J-0", "M-01", Entry("06:00", TimelineEventKind.SafetyDefectFound, "tech-02")))
        );
        var started = Signed(Job("J-5", "M-01", Entry("08:00", TimelineEventKind.MachineStarted, "tech-02")));

        Assert.Equal("J-0", Assert.Single(Others(started, found)).Record.Text);
        Assert.Equal("J-5", Assert.Single(Others(found, started)).Record.Text);
        Assert.Empty(Others(found, Signed(Morning)));
    }

    [Theory]
    [InlineData(true, 2)]
    [InlineData(false, 0)]
    public void Assess_StartedInAnotherRecordOverHandsIn_IsToldAtBoth(bool isSameMachine, int told)
    {
        var job = DemoSeasons
            .Jobs.Select(one => one.Record)
            .First(one =>
                one.Place == WorkPlace.OnMachine
                && one.Timeline.Any(entry => entry.Kind == TimelineEventKind.WorkStopped)
            );
        var stopped = job.Timeline.First(entry => entry.Kind == TimelineEventKind.WorkStopped);
        var before = ((RecordedTime.Instant)stopped.At).Moment.Utc.AddSeconds(-30);
        var start = new TimelineEvent
        {
            Kind = TimelineEventKind.MachineStarted,
            At = Time(before.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture)),
            Actor = stopped.Actor,
        };
        ServiceRecord[] jobs =
        [
            job,
            job with
            {
                Id = new("J-2"),
                Machine = isSameMachine ? job.Machine : new(new("M-99"), null, null),
                Timeline = [start],
            },
        ];
        var judging = new AssessRecord(DemoSeasons.Rules.Book, DemoSeasons.Site).Beside(jobs);

        var findings = jobs.Select(job =>
                judging
                    .Assess(job)
                    .Assessment.Findings.FirstOrDefault(one =>
                        one.Rule.Contains("clear-of-other-records", StringComparison.Ordinal)
                        && one.Verdict == Verdict.NotMet
                    )
            )
            .OfType<Finding>()
            .ToList();

        Assert.Equal(told, findings.Count);
        Assert.All(findings, one => Assert.Contains("ecord J-", one.Statement, StringComparison.Ordinal));
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

    private static List<OtherRecord> Others(ServiceRecord record, params ServiceRecord[] others) =>
        [.. WorkElsewhere.Of([record, .. others], DemoSeasons.Site.Zone).OtherRecords(record)];

    private static ServiceRecord Signed(ServiceRecord record) =>
        record with
        {
            SignOff = new(new("tech-01"), record.Timeline[^1].At),
        };

    private static ServiceRecord OnDay(string day, ServiceRecord record) =>
        record with
        {
            Timeline =
            [
                .. record.Timeline.Select(entry =>
                    entry with
                    {
                        At = Time(entry.At.Text.Replace("04-13", day, StringComparison.Ordinal)),
                    }
                ),
            ],
        };

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
