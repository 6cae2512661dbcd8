using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Engine.Tests.SafeWork;

/// <summary>
/// A run of the machine whose measures speak of people: who is alone at the controls, who stands at the stop, who is kept out;
/// and people who do as they say, or otherwise.
/// </summary>
internal static class RunPeople
{
    private const string Helper = "tech-8";

    private static readonly ImmutableArray<ProtectiveMeasure> Said =
    [
        ProtectiveMeasure.SingleOperatorControl,
        ProtectiveMeasure.SecondPersonAtStopControl,
        ProtectiveMeasure.SecondPersonAtStopControl,
        ProtectiveMeasure.ExclusionZone,
        ProtectiveMeasure.GuardsInPlace,
        ProtectiveMeasure.LongHandledBrush,
        ProtectiveMeasure.EngineOff,
    ];

    private static readonly ImmutableArray<TimelineEventKind> Meanwhile =
    [
        TimelineEventKind.AreaInspected,
        TimelineEventKind.ReelWedged,
        TimelineEventKind.DriveDisengaged,
        TimelineEventKind.PeopleClearChecked,
        TimelineEventKind.EnergisedTaskPerformed,
    ];

    public static (ServiceRecord Record, AssessmentContext Context) Of(
        ServiceRecord record,
        AssessmentContext context,
        Random random
    )
    {
        if (record.Timeline.IsEmpty)
        {
            return (record, context);
        }

        if (random.Next(3) == 0)
        {
            (record, context) = Helped(record, context, random);
        }

        record = record.Timeline.Any(e => e.Kind == TimelineEventKind.TestEnergised)
            ? Reworded(record, random)
            : Run(record, random);
        return (record, random.Next(3) == 0 ? Asking(context, random) : context);
    }

    /// <summary>Somebody helps, and nothing else is told of them.</summary>
    private static (ServiceRecord Record, AssessmentContext Context) Helped(
        ServiceRecord record,
        AssessmentContext context,
        Random random
    )
    {
        var known = context.People.FirstOrDefault(p => p.Authorised);
        return (
            record with
            {
                People = record.People.Add(new(new(Helper), JobRole.Assists)),
            },
            known is null || random.Next(8) == 0
                ? context
                : context with
                {
                    People = context.People.Add(known with { Id = new(Helper), Employer = Employer.Site }),
                }
        );
    }

    /// <summary>A run before the machine goes out, or where the record ends.</summary>
    private static ServiceRecord Run(ServiceRecord record, Random random)
    {
        int last = record
            .Timeline.ToList()
            .FindLastIndex(e => e.Kind is TimelineEventKind.LockRemoved or TimelineEventKind.TagRemoved);
        var near = record.Timeline[last < 0 ? record.Timeline.Length - 1 : last];
        var by = Moments.Somebody(record, random);
        int at = 1;
        var told = record.Timeline.ToBuilder();
        Add(TimelineEventKind.AlternativeMeasuresRecorded, by);
        told[^1] = told[^1] with { Measures = Measures(random), Others = Others(record, random) };
        Add(TimelineEventKind.TestEnergised, random.Next(4) == 0 ? Moments.Somebody(record, random) : by);
        if (random.Next(2) == 0)
        {
            var kind = Meanwhile[random.Next(Meanwhile.Length)];
            Add(kind, Moments.Somebody(record, random));
            told[^1] = told[^1] with
            {
                Task = kind == TimelineEventKind.EnergisedTaskPerformed ? ServiceTask.Lap : null,
            };
        }

        Add(TimelineEventKind.TestEnded, random.Next(4) == 0 ? Moments.Somebody(record, random) : by);
        return record with { Timeline = told.ToImmutable() };

        void Add(TimelineEventKind kind, Id<Participant> who)
        {
            told.Add(
                new()
                {
                    Kind = kind,
                    At = Moments.After(near.At, at),
                    Actor = who,
                }
            );
            at += random.Next(8, 14);
        }
    }

    /// <summary>Other measures said of a run that is there, and now and then another who takes part in it.</summary>
    private static ServiceRecord Reworded(ServiceRecord record, Random random)
    {
        var told = record.Timeline.ToBuilder();
        for (int at = 0; at < told.Count; at++)
        {
            var e = told[at];
            told[at] = e.Kind switch
            {
                TimelineEventKind.AlternativeMeasuresRecorded => e with
                {
                    Measures = Measures(random),
                    Others = Others(record, random),
                },
                TimelineEventKind.TestEnergised
                or TimelineEventKind.EnergisedTaskPerformed
                or TimelineEventKind.TestEnded when random.Next(5) == 0 => e with
                {
                    Actor = Moments.Somebody(record, random),
                },
                _ => e,
            };
        }

        int run = record.Timeline.ToList().FindIndex(e => e.Kind == TimelineEventKind.TestEnergised);
        if (random.Next(2) == 0)
        {
            told.Add(
                new()
                {
                    Kind = Meanwhile[random.Next(Meanwhile.Length - 1)],
                    At = Moments.After(record.Timeline[run], random),
                    Actor = Moments.Somebody(record, random),
                }
            );
        }

        if (!told.Any(e => e.Kind == TimelineEventKind.AlternativeMeasuresRecorded))
        {
            told.Add(
                new()
                {
                    Kind = TimelineEventKind.AlternativeMeasuresRecorded,
                    At = Moments.After(record.Timeline[run].At, -7),
                    Actor = record.Timeline[run].Actor,
                    Measures = Measures(random),
                    Others = Others(record, random),
                }
            );
        }

        return record with
        {
            Timeline = told.ToImmutable(),
        };
    }

    private static AssessmentContext Asking(AssessmentContext context, Random random) =>
        context with
        {
            Procedures =
            [
                .. context.Procedures.Select(p =>
                    p with
                    {
                        TestMeasures = random.Next(2) == 0 ? Measures(random) : [],
                        EnergisedTasks =
                        [
                            .. p.EnergisedTasks.Select(task => task with { Measures = Measures(random) }),
                        ],
                    }
                ),
            ],
        };

    private static ImmutableArray<ProtectiveMeasure> Measures(Random random) =>
        [.. Enumerable.Range(0, random.Next(1, 4)).Select(_ => Said[random.Next(Said.Length)]).Distinct()];

    private static ImmutableArray<Id<Participant>> Others(ServiceRecord record, Random random) =>
        random.Next(6) switch
        {
            0 => TimelinePen.People(SafeJob.Inspector),
            1 => TimelinePen.People("somebody"),
            2 or 3 => [Moments.Somebody(record, random)],
            _ => [],
        };
}
