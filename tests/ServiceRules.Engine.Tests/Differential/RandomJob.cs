using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Formats.Records;

namespace ServiceRules.Engine.Tests.Differential;

/// <summary>A shipped fixture changed in a few places at random, from small sets of values so that limits are hit.</summary>
internal sealed class RandomJob
{
    private readonly Random random;
    private ServiceRecord record;
    private AssessmentContext context;

    private RandomJob(int seed)
    {
        random = new(seed);
        (record, context) = Shelf.Fixtures[random.Next(Shelf.Fixtures.Length)];
    }

    /// <summary>A job that the reader of records accepts, or none for a seed that made an odd one.</summary>
    public static (ServiceRecord Record, AssessmentContext Context)? From(int seed)
    {
        var job = new RandomJob(seed);
        int changes = job.random.Next(0, 7);
        for (int i = 0; i < changes; i++)
        {
            job.Change();
        }

        byte[] written = RecordFormat.Current.Write(job.record);
        return RecordFormat.Current.Read(written).TryGet(out _, out _) ? (job.record, job.context) : null;
    }

    private void Change()
    {
        switch (random.Next(14))
        {
            case 13:
                record = RandomForm.Changed(random, record);
                break;
            case <= 6:
                int which = random.Next(record.Units.Length);
                var unit = record.Units[which];
                var entries =
                    random.Next(20) == 0
                        ? RandomBench.BladeByBlade(
                            random,
                            unit.Entries,
                            Shelf.Sheets.First(sheet => sheet.Id.Text == unit.Sheet).Blades
                        )
                        : RandomBench.Changed(random, unit.Entries, record);
                record = record with { Units = record.Units.SetItem(which, unit with { Entries = entries }) };
                break;
            case 7:
                ChangeInstrument();
                break;
            case 8:
                ChangeTimeline();
                break;
            case 9:
                ChangeJob();
                break;
            case 10:
                AddUnit();
                break;
            case 11:
                ChangeMowing();
                break;
            default:
                ChangeContext();
                break;
        }
    }

    /// <summary>Speeds that clip about the heights of the fixtures, and now and then something read on the turf.</summary>
    private void ChangeMowing()
    {
        record = record with
        {
            Machine = record.Machine with
            {
                Tested = new(
                    Speed.Parse(Any(["4 km/h", "4.51 km/h", "6 km/h", "3.8 mph"])).OrThrow(),
                    random.Next(4) == 0 ? null : RotationRate.Parse("2200 rev/min").OrThrow(),
                    random.Next(3) == 0 ? Mm(Any(["3.05 mm", "3.4 mm", "3.8 mm", "12.0 mm"])) : null,
                    random.Next(3) == 0 ? Mm(Any(["3.4 mm", "45 mm", "160 mm", "300 mm"])) : null
                ),
            },
        };
    }

    private void ChangeInstrument()
    {
        if (record.Instruments.IsEmpty)
        {
            return;
        }

        int which = random.Next(record.Instruments.Length);
        var gauge = record.Instruments[which];
        var day = record.Date;
        if (random.Next(3) == 0)
        {
            record = record with { Instruments = record.Instruments.Add(gauge with { Id = new("G-90") }) };
            record = record with { Instruments = [.. record.Instruments.DistinctBy(i => i.Id)] };
            return;
        }

        gauge = random.Next(9) switch
        {
            8 => gauge with { Kind = Any(Enum.GetValues<InstrumentKind>()) },
            0 => gauge with { Calibration = null },
            1 => gauge with { ZeroCheck = null },
            2 => gauge with { Inspection = new(day, Condition.Faulty) },
            3 when gauge.Calibration is { } calibration => gauge with
            {
                Calibration = calibration with { Due = day.AddDays(-1) },
            },
            4 => gauge with { Tolerance = null },
            5 when gauge.Resolution is { } resolution => gauge with
            {
                ZeroCheck = new(random.Next(2) == 0 ? resolution : Mm("0.05 mm"), null),
            },
            6 when gauge.Repeatability is { } repeats => gauge with
            {
                Repeatability = null,
                RepeatabilityStudies =
                [
                    .. Enumerable
                        .Range(0, 1 + random.Next(2))
                        .Select(_ => new RepeatabilityStudy(repeats, 1 + random.Next(8))),
                ],
            },
            7 when gauge.Calibration is { } certificate => gauge with
            {
                Calibration = certificate with { DegreesOfFreedom = 1 + random.Next(20) },
            },
            _ => gauge,
        };
        record = record with { Instruments = record.Instruments.SetItem(which, gauge) };
    }

    private void ChangeTimeline()
    {
        if (record.Timeline.Length < 2)
        {
            return;
        }

        int one = random.Next(record.Timeline.Length);
        int other = random.Next(record.Timeline.Length);
        var timeline = record.Timeline;
        record = record with
        {
            Timeline = random.Next(3) switch
            {
                0 => timeline.RemoveAt(one),
                1 => timeline
                    .SetItem(one, timeline[one] with { At = timeline[other].At })
                    .SetItem(other, timeline[other] with { At = timeline[one].At }),
                _ => timeline.SetItem(one, timeline[one] with { Mark = Domain.Timeline.EntryMark.LateEntry }),
            },
        };
    }

    private void ChangeJob()
    {
        switch (random.Next(6))
        {
            case 4:
                record = record with { Date = record.Date.AddDays(random.Next(5) - 2) };
                break;
            case 0:
                record = record with { SignOff = null, FollowUp = null };
                break;
            case 1:
                record = record with { Tasks = [Any(Enum.GetValues<ServiceTask>())] };
                break;
            case 2:
                var rule = Any([.. Shelf.Rules]);
                record = record with
                {
                    Releases = record.Releases.Add(
                        new(Any([.. record.People]).Id, record.Timeline[^1].At, rule.Id.Text, null, "seen")
                    ),
                };
                break;
            case 3:
                record = record with { People = record.People.Add(new(new("lead-01"), JobRole.Leads)) };
                context = context with
                {
                    People = context.People.Add(new(new("lead-01"), true, null, null, random.Next(4) > 0)),
                };
                break;
            default:
                record = record with
                {
                    Requested =
                    [
                        new(
                            MeasuredQuantity.HeightOfCut,
                            Mm(Any(["3.8 mm", "4.8 mm", "8.0 mm"])),
                            random.Next(4) == 0 ? null : new(Any(["lead-01", record.People[0].Id.Text]))
                        )
                        {
                            Order = Any([.. context.SettingOrders.Select(o => o.Id), new("SO-none")]),
                        },
                    ],
                };
                break;
        }
    }

    private void AddUnit()
    {
        var like = Any([.. record.Units]);
        int number = record.Units.Length + 1;
        record = record with
        {
            Units = record.Units.Add(
                like with
                {
                    Id = new($"U-90-{number}"),
                    Position = like.Position is null ? null : record.Units.Max(u => u.Position) + 1,
                    Reel = null,
                    Bedknife = null,
                }
            ),
        };
    }

    private void ChangeContext()
    {
        switch (random.Next(4))
        {
            case 0:
                context = context with
                {
                    SettingOrders =
                    [
                        .. context.SettingOrders.Select(o =>
                            o with
                            {
                                Schools =
                                [
                                    .. o.Schools.Select(s =>
                                        s with
                                        {
                                            School = Any(Enum.GetValues<ContactSchool>()),
                                        }
                                    ),
                                ],
                            }
                        ),
                    ],
                };
                break;
            case 1:
                context = context with { SettingOrders = [] };
                break;
            case 2:
                context = context with
                {
                    People =
                    [
                        .. context.People.Select(p =>
                            p with
                            {
                                Authorised = random.Next(2) == 0,
                                MayRelease = random.Next(2) == 0,
                            }
                        ),
                    ],
                };
                break;
            default:
                context = context with
                {
                    Waivers = context.Waivers.Add(
                        new(
                            Any([.. Shelf.Rules]).Id.Text,
                            random.Next(2) == 0 ? null : record.Units[0].Id.Text,
                            new(Any(["lead-01", record.People[0].Id.Text])),
                            "agreed",
                            record.Date.AddDays(-random.Next(3)),
                            record.Date.AddDays(random.Next(3) - 1)
                        )
                    ),
                };
                break;
        }
    }

    private T Any<T>(IReadOnlyList<T> among) => among[random.Next(among.Count)];

    private static PrintedLength Mm(string text) =>
        PrintedLength.Parse(text).TryGet(out var length, out _) ? length : throw new FormatException(text);
}
