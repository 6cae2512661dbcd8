using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Engine.Tests.SafeWork;

/// <summary>A job that claims not to need the full control, with more or less of what the claim needs.</summary>
internal static class ClaimMutation
{
    private const string Mains = "mains_cord";

    public static (ServiceRecord Record, AssessmentContext Context) Of(
        ServiceRecord record,
        AssessmentContext context,
        Random random
    )
    {
        if (
            record.Timeline.IsEmpty || record.Timeline[0].At is not RecordedTime.Instant { Moment: var start }
        )
        {
            return (record, context);
        }

        var kind = (ExemptionKind)random.Next(3);
        string by = record.People[0].Id.Text;
        bool Mostly() => random.Next(5) > 0;
        List<TimelineEvent> told =
        [
            Event(TimelineEventKind.ExemptionClaimed, by, start, 20) with
            {
                Claim = Claim(kind, random),
            },
        ];
        if (kind == ExemptionKind.MinorServicing)
        {
            if (Mostly())
            {
                told.Add(
                    Event(TimelineEventKind.AlternativeMeasuresRecorded, by, start, 15) with
                    {
                        Measures = Mostly()
                            ? [ProtectiveMeasure.LongHandledBrush, ProtectiveMeasure.ReelsAtRestSeen]
                            : [(ProtectiveMeasure)random.Next((int)ProtectiveMeasure.Other + 1)],
                    }
                );
            }

            record = record with
            {
                Tasks = [Mostly() ? ServiceTask.DailyCheck : ServiceTask.FullService],
                Units = Mostly() ? record.Units : BenchLog(record.Units, random),
                Setting = Mostly() ? WorkSetting.InUse : WorkSetting.Workshop,
                HandsInBladeZone =
                    Mostly() ? false
                    : random.Next(2) == 0 ? true
                    : null,
            };
        }
        else
        {
            bool onlyMains = Mostly();
            context = OnMains(context, onlyMains, kind == ExemptionKind.UndocumentedProcedure && Mostly());
            foreach (
                var step in new[] { TimelineEventKind.PlugRemoved, TimelineEventKind.PlugControlConfirmed }
            )
            {
                if (kind == ExemptionKind.CordAndPlug && Mostly())
                {
                    string who = Mostly() ? by : SafeJob.Lead;
                    told.Add(
                        Event(step, who, start, step == TimelineEventKind.PlugRemoved ? 12 : 10) with
                        {
                            Source = TimelinePen.SourceOf(Mains),
                        }
                    );
                }
            }
        }

        bool bare = random.Next(2) == 0;
        var rest = bare
            ? record.Timeline.Where(e =>
                e.Kind
                    is TimelineEventKind.WorkStarted
                        or TimelineEventKind.WorkStopped
                        or TimelineEventKind.MachineShutDown
            )
            : record.Timeline;
        return (record with { Timeline = [.. told, .. rest] }, context);
    }

    /// <summary>Something done to the first unit, at the blades or away from them.</summary>
    private static ImmutableArray<UnitWork> BenchLog(ImmutableArray<UnitWork> units, Random random)
    {
        BenchEntry done = random.Next(4) switch
        {
            0 => new Reading
            {
                Quantity = MeasuredQuantity.Clearance,
                Observed = new Observation.Contact(ContactState.Light),
            },
            1 => new Grinding { Kind = GrindingKind.ReelSpin },
            2 => new PartFitted { Part = PartKind.Bedknife },
            _ => new Reading
            {
                Quantity = MeasuredQuantity.Guards,
                Observed = new Observation.Seen(Condition.Sound),
            },
        };
        return units.IsEmpty ? units : units.SetItem(0, units[0] with { Entries = [done] });
    }

    private static ExemptionClaim Claim(ExemptionKind kind, Random random)
    {
        bool? Yes() =>
            random.Next(8) switch
            {
                0 => null,
                1 => false,
                _ => true,
            };
        bool All() => random.Next(30) > 0;
        return kind switch
        {
            ExemptionKind.MinorServicing => new(kind, Yes(), Yes(), Yes()),
            ExemptionKind.UndocumentedProcedure => new(
                kind,
                Facts: random.Next(6) == 0
                    ? null
                    : new(All(), All(), All(), All(), All(), All(), All(), All())
            ),
            _ => new(kind),
        };
    }

    private static TimelineEvent Event(TimelineEventKind kind, string by, Moment start, int minutesBefore) =>
        new()
        {
            Kind = kind,
            Actor = new(by),
            At = TimelinePen.Parse((start + TimeSpan.FromMinutes(-minutesBefore)).ToString()),
        };

    private static AssessmentContext OnMains(AssessmentContext context, bool only, bool unwritten)
    {
        EnergySource mains = new()
        {
            Id = new(Mains),
            Title = "mains",
            Isolator = "plug",
            Lockable = true,
            Proof = "tried",
        };
        ImmutableArray<EnergySource> With(ImmutableArray<EnergySource> sources) =>
            only ? [mains] : [.. sources.Where(s => s.Id != mains.Id), mains];
        return context with
        {
            Machines = [.. context.Machines.Select(m => m with { Sources = With(m.Sources) })],
            Procedures = unwritten
                ? []
                : [.. context.Procedures.Select(p => p with { Sources = With(p.Sources) })],
        };
    }
}
