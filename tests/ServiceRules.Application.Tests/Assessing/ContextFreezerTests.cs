using System.Globalization;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Tests.Demo;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;

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
                Timeline = [],
                Units = [],
            }
        );

        Assert.Equal([expected], context.Procedures.Select(procedure => procedure.Id.Text));
    }

    /// <summary>A job begun before midnight and dated the day after went by what was in force when it began.</summary>
    [Fact]
    public void Freeze_DatedTheDayAfterItBegan_TakesTheOneInForceWhenItBegan()
    {
        var record = DemoSeasons.Jobs.First(job => job.Record.Machine.Id.Text == "M-01").Record;

        var context = ContextFreezer.Freeze(
            DemoSeasons.Site,
            record with
            {
                Date = new(2026, 2, 10),
                Timeline = [record.Timeline[0] with { At = Time("2026-02-09T23:30:00Z") }],
                Units = [],
            }
        );

        Assert.Equal(["P-ride-on-1"], context.Procedures.Select(procedure => procedure.Id.Text));
    }

    /// <summary>A withdrawn procedure is another thing than none: whoever looks after safety is told which it was.</summary>
    [Fact]
    public void Freeze_NoneInForce_TakesTheLastThatWas()
    {
        var record = DemoSeasons.Jobs.First(job => job.Record.Machine.Id.Text == "M-01").Record;
        var site = DemoSeasons.Site with
        {
            Procedures =
            [
                .. DemoSeasons.Site.Procedures.Select(procedure =>
                    procedure with
                    {
                        Until = procedure.Until ?? new DateOnly(2026, 3, 1),
                    }
                ),
            ],
        };

        var context = ContextFreezer.Freeze(
            site,
            record with
            {
                Date = new(2026, 6, 1),
                Timeline = [],
                Units = [],
            }
        );

        Assert.Equal(["P-ride-on-2"], context.Procedures.Select(procedure => procedure.Id.Text));
    }

    [Fact]
    public void Freeze_RegistersOfTheWholeSite_TakesWhatBearsOnTheJobAlone()
    {
        var record = DemoSeasons.Jobs.First(job => job.Record.Machine.Id.Text == "M-01").Record;
        string day = record.Date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
        Id<Participant> here = record.People[0].Id;
        Id<LockDevice> hung = record.Timeline.First(entry => entry.Lock is not null).Lock!.Value;
        RecordedTime at = Time(day + "T06:00:00+01:00");
        RecordedTime longAgo = Time("2024-01-05T06:00:00Z");
        var site = DemoSeasons.Site with
        {
            Machines = [new(new("M-01"), "one", []), new(new("M-02"), "two", [])],
            LockStyle = "red body",
            RemovalException = new("P-90", [here]),
            Attendance = [new(here, at, at), new(new("nobody"), at, at), new(here, longAgo, longAgo)],
            Elsewhere =
            [
                new LockElsewhere(hung, new("M-02"), at, null),
                new LockElsewhere(new("L-0"), new("M-02"), at, null),
                new PersonElsewhere(here, new("M-02"), at, at),
                new PersonElsewhere(here, new("M-02"), longAgo, longAgo),
            ],
        };

        var context = ContextFreezer.Freeze(site, record);

        Assert.Equal(["M-01"], context.Machines.Select(machine => machine.Id.Text));
        Assert.Equal(("red body", "P-90"), (context.LockStyle, context.RemovalException?.Id));
        Assert.Equal(site.Attendance[0], Assert.Single(context.Attendance));
        Assert.Equal<Elsewhere>([site.Elsewhere[0], site.Elsewhere[2]], [.. context.Elsewhere]);
    }

    /// <summary>
    /// Who is over the people of another record, and who hung a lock that is cut here, is asked of the register too; when they
    /// came and left is not, nor is anything of whoever else that record names.
    /// </summary>
    [Fact]
    public void Freeze_NamedByAnotherRecordAlone_IsTakenFromTheRegister()
    {
        var record = DemoSeasons.Jobs.First(job => job.Record.Timeline.Length > 0).Record;
        var at = record.Timeline[0].At;
        TimelineEvent Entry(TimelineEventKind kind, string by) =>
            new()
            {
                Kind = kind,
                At = at,
                Actor = new(by),
            };
        var cut = record with
        {
            Timeline =
            [
                .. record.Timeline,
                Entry(TimelineEventKind.LockRemoved, record.Timeline[0].Actor.Text) with
                {
                    Lock = new("L-77"),
                },
            ],
        };
        var other = record with
        {
            Id = new("J-other"),
            People = [],
            Timeline =
            [
                Entry(TimelineEventKind.LockApplied, "hung-77") with
                {
                    Lock = new("L-77"),
                },
                Entry(TimelineEventKind.LockApplied, "else-77") with
                {
                    Lock = new("L-78"),
                },
                Entry(TimelineEventKind.CoordinatorAssigned, "else-77") with
                {
                    Others = [new("over-77")],
                },
                Entry(TimelineEventKind.PrimaryAssigned, "lead-77"),
            ],
        };
        Id<Participant>[] theirs = [new("else-77"), new("hung-77"), new("lead-77"), new("over-77")];
        var site = DemoSeasons.Site with
        {
            People =
            [
                .. DemoSeasons.Site.People,
                .. theirs.Select(id => new RegisteredPerson(id, true, null, null)),
            ],
            Attendance = [.. theirs.Select(id => new Attendance(id, at, at))],
        };

        var context = ContextFreezer.Freeze(site, cut, WorkElsewhere.Of([cut, other], site.Zone));

        Assert.Equal(
            ["hung-77", "lead-77", "over-77"],
            context
                .People.Select(person => person.Id.Text)
                .Where(id => id.EndsWith("-77", StringComparison.Ordinal))
        );
        Assert.Empty(context.Attendance);
    }

    private static RecordedTime Time(string text) => RecordedTime.Parse(text).OrThrow();
}
