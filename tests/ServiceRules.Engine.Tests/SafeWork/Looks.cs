using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Engine.Tests.SafeWork;

/// <summary>A random job turned into one that calls itself a look from outside: now and then with a step of hands left in.</summary>
internal static class Looks
{
    private static readonly TimelineEventKind[] Hands =
    [
        TimelineEventKind.IsolatorOperated,
        TimelineEventKind.PlugRemoved,
        TimelineEventKind.PlugControlConfirmed,
        TimelineEventKind.LockApplied,
        TimelineEventKind.TagApplied,
        TimelineEventKind.LockRemoved,
        TimelineEventKind.TagRemoved,
        TimelineEventKind.StoredEnergyReleased,
        TimelineEventKind.StoredEnergyRechecked,
        TimelineEventKind.IsolationVerified,
        TimelineEventKind.WorkStarted,
        TimelineEventKind.WorkStopped,
        TimelineEventKind.ReelWedged,
        TimelineEventKind.UnitSupported,
        TimelineEventKind.GuardsRefitted,
        TimelineEventKind.GlovesWorn,
        TimelineEventKind.TestEnergised,
        TimelineEventKind.TestEnded,
        TimelineEventKind.EnergisedTaskPerformed,
        TimelineEventKind.PrimaryAssigned,
        TimelineEventKind.CoordinatorAssigned,
        TimelineEventKind.ExposureChecked,
        TimelineEventKind.HandoverBriefed,
        TimelineEventKind.ContractorProceduresExchanged,
        TimelineEventKind.AlternativeMeasuresRecorded,
        TimelineEventKind.ResumedWork,
        TimelineEventKind.SourceAdded,
        TimelineEventKind.BlockageClearedByHand,
        TimelineEventKind.BlockageClearedWithTool,
        TimelineEventKind.AbsenceConfirmed,
        TimelineEventKind.ContactAttempted,
        TimelineEventKind.OwnerInformed,
        TimelineEventKind.SafetyDefectClosed,
    ];

    public static ServiceRecord Of(ServiceRecord record, Random random)
    {
        var kept = random.Next(6) == 0 ? Hands[random.Next(Hands.Length)] : (TimelineEventKind?)null;
        var timeline = record
            .Timeline.Where(entry => !Hands.Contains(entry.Kind) || entry.Kind == kept)
            .ToImmutableArray();
        return record with
        {
            HandsInBladeZone = random.Next(8) == 0 ? null : false,
            Tasks = [random.Next(8) == 0 ? ServiceTask.FullService : ServiceTask.Inspect],
            Timeline = timeline,
            Units =
            [
                .. record.Units.Select(unit =>
                    unit with
                    {
                        Entries = random.Next(8) == 0 ? unit.Entries : Seen(timeline, random),
                    }
                ),
            ],
        };
    }

    private static ImmutableArray<BenchEntry> Seen(ImmutableArray<TimelineEvent> timeline, Random random) =>
        [
            new Reading
            {
                Quantity = MeasuredQuantity.Guards,
                Observed = new Observation.Seen(Condition.Sound),
                At =
                    timeline.IsEmpty || random.Next(2) == 0
                        ? null
                        : timeline[random.Next(timeline.Length)].At,
            },
        ];
}
