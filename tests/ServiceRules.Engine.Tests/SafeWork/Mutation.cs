using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Engine.Tests.SafeWork;

/// <summary>A safe job with a few things wrong: steps missing, late, by others, cut short, or typed in later.</summary>
internal static class Mutation
{
    private static readonly TimelineEventKind[] Strays =
    [
        TimelineEventKind.WorkStarted,
        TimelineEventKind.WorkStopped,
        TimelineEventKind.MachineStarted,
        TimelineEventKind.TestEnergised,
        TimelineEventKind.TestEnded,
        TimelineEventKind.ResumedWork,
        TimelineEventKind.AreaInspected,
        TimelineEventKind.HandoverBriefed,
        TimelineEventKind.PlugControlConfirmed,
        TimelineEventKind.KeyRemoved,
        TimelineEventKind.SourceAdded,
        TimelineEventKind.EnergisedTaskPerformed,
        TimelineEventKind.AlternativeMeasuresRecorded,
        TimelineEventKind.SeenAtRest,
        TimelineEventKind.HandedBack,
    ];

    public static (ServiceRecord Record, AssessmentContext Context) From(int seed)
    {
        var (record, context) = SafeJob.From(seed);
        var random = new Random(~seed);
        for (int changes = random.Next(5); changes > 0; changes--)
        {
            (record, context) =
                random.Next(4) == 0
                    ? (record, SiteMutation.Of(context, random))
                    : (Of(record, random), context);
        }

        if (random.Next(8) == 0)
        {
            (record, context) = ClaimMutation.Of(record, context, random);
        }

        return (Ended(record, random), context);
    }

    private static ServiceRecord Of(ServiceRecord record, Random random)
    {
        if (record.Timeline.IsEmpty)
        {
            return record;
        }

        int at = random.Next(record.Timeline.Length);
        var e = record.Timeline[at];
        return random.Next(18) switch
        {
            <= 4 => With(record, record.Timeline.RemoveAt(at)),
            5 => With(record, record.Timeline.RemoveAll(other => other.Kind == e.Kind)),
            6 or 7 => Moved(record, at, random),
            8 => With(record, record.Timeline.SetItem(at, e with { Actor = Anybody(record, random) })),
            9 => With(
                record,
                record.Timeline.Add(e with { Actor = Anybody(record, random), At = Later(e, random) })
            ),
            10 => Swapped(record, at, random.Next(record.Timeline.Length)),
            11 => With(record, [.. record.Timeline.OrderBy(_ => random.Next())]),
            12 => With(record, record.Timeline.SetItem(at, Reworded(e, random))),
            16 or 17 => WithDevice(record, random),
            13 => Strayed(record, e, random),
            14 => Excepted(record, random),
            _ => Doubted(record, random),
        };
    }

    /// <summary>Cut short now and then; open more often when it was.</summary>
    private static ServiceRecord Ended(ServiceRecord record, Random random)
    {
        bool isCut = random.Next(6) == 0;
        if (isCut && !record.Timeline.IsEmpty)
        {
            record = With(record, [.. record.Timeline.Take(random.Next(record.Timeline.Length) + 1)]);
        }

        return random.Next(isCut ? 2 : 12) == 0 ? record with { SignOff = null } : record;
    }

    private static ServiceRecord With(ServiceRecord record, ImmutableArray<TimelineEvent> timeline) =>
        record with
        {
            Timeline = timeline,
        };

    private static ServiceRecord Moved(ServiceRecord record, int at, Random random)
    {
        var to = record.Timeline[random.Next(record.Timeline.Length)];
        return With(record, record.Timeline.SetItem(at, record.Timeline[at] with { At = Later(to, random) }));
    }

    private static ServiceRecord Swapped(ServiceRecord record, int one, int other)
    {
        var (a, b) = (record.Timeline[one], record.Timeline[other]);
        return With(
            record,
            record.Timeline.SetItem(one, a with { At = b.At }).SetItem(other, b with { At = a.At })
        );
    }

    private static ServiceRecord Strayed(ServiceRecord record, TimelineEvent near, Random random)
    {
        var kind = Strays[random.Next(Strays.Length)];
        return With(
            record,
            record.Timeline.Add(
                new()
                {
                    Kind = kind,
                    At = Later(near, random),
                    Actor = Anybody(record, random),
                    Source =
                        kind == TimelineEventKind.SourceAdded ? TimelinePen.SourceOf(SafeJob.Added) : null,
                }
            )
        );
    }

    /// <summary>Something about a lock, a tag or an isolator is not as it should be.</summary>
    private static ServiceRecord WithDevice(ServiceRecord record, Random random)
    {
        int[] places =
        [
            .. Enumerable
                .Range(0, record.Timeline.Length)
                .Where(at =>
                    record.Timeline[at].Kind
                        is TimelineEventKind.LockApplied
                            or TimelineEventKind.TagApplied
                            or TimelineEventKind.IsolatorOperated
                            or TimelineEventKind.EnergyReviewed
                ),
        ];
        if (places.Length == 0)
        {
            return record;
        }

        int at = places[random.Next(places.Length)];
        var e = record.Timeline[at];
        bool becomesTag = e.Kind == TimelineEventKind.LockApplied && random.Next(2) == 0;
        return With(
            record,
            record.Timeline.SetItem(
                at,
                becomesTag
                    ? e with
                    {
                        Kind = TimelineEventKind.TagApplied,
                        Lock = new Id<LockDevice>($"T-{e.Actor}"),
                        AtLockPoint = random.Next(2) == 0,
                    }
                    : Reworded(e, random)
            )
        );
    }

    private static TimelineEvent Reworded(TimelineEvent e, Random random) =>
        e.Kind switch
        {
            TimelineEventKind.LockApplied or TimelineEventKind.LockRemoved when random.Next(3) == 0 => e with
            {
                Lock = new Id<LockDevice>(random.Next(2) == 0 ? "L-tech-2-box" : "L-unknown"),
            },
            TimelineEventKind.LockApplied => e with
            {
                Position = random.Next(2) == 0 ? IsolatorPosition.On : null,
            },
            TimelineEventKind.EnergyReviewed => e with { Procedure = random.Next(2) == 0 ? "p_1" : "P-0" },
            TimelineEventKind.TagApplied => e with { AtLockPoint = random.Next(2) == 0, ExtraMeasure = null },
            TimelineEventKind.IsolatorOperated => e with
            {
                Isolator = random.Next(6) switch
                {
                    0 or 1 => "stop_button",
                    2 => "Key switch",
                    3 => "yellow strap",
                    _ => null,
                },
            },
            TimelineEventKind.LockRemoved or TimelineEventKind.TagRemoved => e with
            {
                Reason = e.Reason is null ? "test" : null,
            },
            TimelineEventKind.StoredEnergyRechecked => e with
            {
                Pressure = random.Next(3) == 0 ? null : SafeJob.Read("30 bar"),
            },
            TimelineEventKind.StoredEnergyReleased
            or TimelineEventKind.IsolationVerified when random.Next(2) == 0 => e with
            {
                Pressure = SafeJob.Read(random.Next(3) == 0 ? "2 bar" : "30 bar"),
            },
            TimelineEventKind.IsolationVerified => e with { Source = TimelinePen.SourceOf("engine_start") },
            _ => e with { Others = [] },
        };

    /// <summary>Somebody else's last device comes off under the exception, more or less as it says.</summary>
    private static ServiceRecord Excepted(ServiceRecord record, Random random)
    {
        int last = -1;
        for (int i = 0; i < record.Timeline.Length; i++)
        {
            last = record.Timeline[i].Kind == TimelineEventKind.LockRemoved ? i : last;
        }

        if (last < 0)
        {
            return record;
        }

        var off = record.Timeline[last];
        var owner = TimelinePen.People(off.Actor.Text);
        List<TimelineEvent> told = [];
        void Tell(TimelineEventKind kind, int minutes, bool always = false)
        {
            if (always || random.Next(4) > 0)
            {
                told.Add(
                    new()
                    {
                        Kind = kind,
                        At = Shifted(off.At, minutes * 60),
                        Actor = new(SafeJob.Lead),
                        Others = owner,
                    }
                );
            }
        }

        Tell(TimelineEventKind.AbsenceConfirmed, 0);
        Tell(TimelineEventKind.ContactAttempted, 0);
        Tell(TimelineEventKind.OwnerInformed, 600);
        if (random.Next(2) == 0)
        {
            told.Add(
                new()
                {
                    Kind = TimelineEventKind.ResumedWork,
                    At = Shifted(off.At, random.Next(590, 640) * 60),
                    Actor = off.Actor,
                }
            );
        }

        var taken = off with
        {
            Actor = new(SafeJob.Lead),
            Exception = random.Next(5) == 0 ? null : "P-90",
            At = Shifted(off.At, 20),
        };
        return With(record, [.. record.Timeline.SetItem(last, taken), .. told]);
    }

    private static ServiceRecord Doubted(ServiceRecord record, Random random)
    {
        int counter = 0;
        int from = random.Next(record.Timeline.Length);
        var first = record.Timeline[from].At;
        return random.Next(4) switch
        {
            0 => With(
                record,
                [
                    .. record.Timeline.Select(
                        (e, at) =>
                            at >= from && at < from + 9
                                ? e with
                                {
                                    At = Shifted(first, (at - from) / 100.0),
                                }
                                : e
                    ),
                ]
            ),
            1 => With(
                record,
                [
                    .. record.Timeline.Select(
                        (e, at) =>
                            at >= from && at < from + 6
                                ? e with
                                {
                                    ReceivedAt = TimelinePen.Parse("2025-11-02T23:00:00Z"),
                                }
                                : e
                    ),
                ]
            ),
            2 => With(
                record,
                [.. record.Timeline.Select(e => e with { Device = "tab-1", Sequence = ++counter })]
            ),
            _ => With(
                record,
                record.Timeline.SetItem(
                    from,
                    record.Timeline[from] with
                    {
                        ReceivedAt = Shifted(first, random.Next(-900, 900)),
                        Mark = random.Next(2) == 0 ? EntryMark.LateEntry : EntryMark.AtTheTime,
                    }
                )
            ),
        };
    }

    private static Id<Participant> Anybody(ServiceRecord record, Random random) =>
        record.People[random.Next(record.People.Length)].Id;

    private static RecordedTime Later(TimelineEvent e, Random random) => Shifted(e.At, random.Next(-40, 41));

    private static RecordedTime Shifted(RecordedTime at, double seconds) =>
        at is RecordedTime.Instant instant
            ? TimelinePen.Parse(
                instant.Moment + TimeSpan.FromSeconds(seconds) is var moved ? moved.ToString() : ""
            )
            : at;
}
