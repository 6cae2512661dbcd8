using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Engine.Tests.SafeWork;

/// <summary>Readings and adjustments with a time and a name, in and outside hands-on work and in runs.</summary>
internal static class BenchLines
{
    private static readonly ImmutableArray<TimelineEventKind> Turns =
    [
        TimelineEventKind.LockRemoved,
        TimelineEventKind.WorkStarted,
        TimelineEventKind.WorkStarted,
        TimelineEventKind.WorkStopped,
        TimelineEventKind.TestEnergised,
        TimelineEventKind.TestEnded,
        TimelineEventKind.MachineStarted,
        TimelineEventKind.IsolationVerified,
    ];

    public static (ServiceRecord Record, AssessmentContext Context) Of(
        ServiceRecord record,
        AssessmentContext context,
        Random random
    )
    {
        if (record.Timeline.IsEmpty || record.Units.IsEmpty)
        {
            return (record, context);
        }

        List<BenchEntry> lines = [];
        for (int more = random.Next(1, 4); more > 0; more--)
        {
            lines.Add(
                Line(random) with
                {
                    At = random.Next(12) == 0 ? null : Moments.After(Near(record.Timeline, random), random),
                    By = Moments.Somebody(record, random),
                }
            );
        }

        IEnumerable<BenchEntry> log = random.Next(6) == 0 ? lines : lines.OrderBy(line => Ticks(line.At));
        if (random.Next(2) == 0)
        {
            context = context with { Procedures = [.. context.Procedures.Select(WithControl)] };
        }

        var unit = record.Units[0];
        return (
            record with
            {
                Units = record.Units.SetItem(0, unit with { Entries = [.. unit.Entries, .. log] }),
            },
            context
        );
    }

    private static Procedure WithControl(Procedure written) =>
        written with
        {
            EnergisedTasks =
            [
                .. written.EnergisedTasks.Select(task =>
                    task with
                    {
                        AdjusterControl = "knob outside the guard",
                    }
                ),
            ],
        };

    private static BenchEntry Line(Random random) =>
        random.Next(10) switch
        {
            <= 2 => Turn(AdjusterKind.Clearance, AdjustDirection.Close),
            3 => Turn(AdjusterKind.Height, AdjustDirection.Raise),
            4 => Read(
                MeasuredQuantity.Clearance,
                new Observation.FeelerTest([Length("0.05 mm")], random.Next(2) == 0)
            ),
            5 => Read(MeasuredQuantity.Edge, new Observation.Paper(PaperResult.Cuts)),
            6 => Read(MeasuredQuantity.Clearance, new Observation.Contact(ContactState.Light)),
            7 => Read(MeasuredQuantity.HeightOfCut, new Observation.Measured(Length("12.50 mm"))),
            8 => Read(
                random.Next(2) == 0 ? MeasuredQuantity.BearingPlay : MeasuredQuantity.Attitude,
                new Observation.Seen(Condition.Sound)
            ),
            _ => new PartFitted { Part = PartKind.Seal },
        };

    private static Adjustment Turn(AdjusterKind adjuster, AdjustDirection direction) =>
        new()
        {
            Adjuster = adjuster,
            Side = Side.Both,
            Direction = direction,
            Amount = new AdjustmentAmount.Steps(1),
        };

    private static Reading Read(MeasuredQuantity quantity, Observation observed) =>
        new() { Quantity = quantity, Observed = observed };

    private static PrintedLength Length(string text) =>
        PrintedLength.Parse(text).TryGet(out var length, out _) ? length : throw new ArgumentException(text);

    private static TimelineEvent Near(ImmutableArray<TimelineEvent> timeline, Random random)
    {
        var kind = Turns[random.Next(Turns.Length)];
        ImmutableArray<TimelineEvent> turns = [.. timeline.Where(e => e.Kind == kind)];
        return random.Next(4) == 0 || turns.IsEmpty
            ? timeline[random.Next(timeline.Length)]
            : turns[random.Next(turns.Length)];
    }

    private static long Ticks(RecordedTime? at) =>
        at is RecordedTime.Instant instant ? instant.Moment.Utc.Ticks : 0;
}
