using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Oracle.SafeWork;

/// <summary>Where the work was, by what was done.</summary>
internal static class PlaceTold
{
    public static WorkPlace Of(ServiceRecord record, AssessmentContext context, IReadOnlyList<Step> steps)
    {
        if (record.Place == WorkPlace.OnMachine)
        {
            return WorkPlace.OnMachine;
        }

        var bench = context
            .Procedures.Where(p => p.Place == WorkPlace.OnBench && p.Machines.Contains(record.Machine.Id))
            .ToList();
        bool isSwitched = bench.Exists(p => p.Sources.Any(source => source.Isolator is not null));
        bool isBenchs(Step step) =>
            step.Event.Source is not SourceReference.One one
            || bench.Count == 0
            || bench.Exists(p => p.Sources.Any(source => source.Id == one.Source));
        // What comes to the bench is not of the machine, unless the machine has it.
        var came = steps
            .Where(step => step.Kind == TimelineEventKind.SourceAdded)
            .Select(step => step.Event.Source)
            .OfType<SourceReference.One>()
            .Where(one =>
                !context.Procedures.Any(p =>
                    p.Place == WorkPlace.OnMachine
                    && p.Machines.Contains(record.Machine.Id)
                    && p.Sources.Any(source => source.Id == one.Source)
                )
            )
            .ToList();
        bool isOfWhatCame(Step step) =>
            step.Event.Source is SourceReference.One one
            && came.Contains(one)
            && step.Kind
                is TimelineEventKind.IsolatorOperated
                    or TimelineEventKind.PlugRemoved
                    or TimelineEventKind.PlugControlConfirmed
                    or TimelineEventKind.LockApplied
                    or TimelineEventKind.TagApplied
                    or TimelineEventKind.StoredEnergyReleased
                    or TimelineEventKind.StoredEnergyRechecked
                    or TimelineEventKind.IsolationVerified;
        bool tells = steps.Any(step =>
            !isOfWhatCame(step)
            && step.Kind switch
            {
                TimelineEventKind.MachineStarted
                or TimelineEventKind.MachineShutDown
                or TimelineEventKind.TestEnergised
                or TimelineEventKind.TestEnded
                or TimelineEventKind.EnergisedTaskPerformed
                or TimelineEventKind.KeyRemoved
                or TimelineEventKind.IsolatorOperated
                or TimelineEventKind.PlugRemoved
                or TimelineEventKind.PlugControlConfirmed
                or TimelineEventKind.LockApplied
                or TimelineEventKind.TagApplied
                or TimelineEventKind.UnitsLowered
                or TimelineEventKind.ParkingBrakeSet
                or TimelineEventKind.CutOutsProved => true,
                TimelineEventKind.StoredEnergyReleased
                or TimelineEventKind.StoredEnergyRechecked
                or TimelineEventKind.IsolationVerified => !isBenchs(step),
                _ => false,
            }
        );
        // A battery, a controller, mowing: what has them is no unit on a bench.
        bool isWhole =
            (record.ElectricalWork || record.Setting == WorkSetting.InUse)
            && context.Procedures.Any(p =>
                p.Place == WorkPlace.OnMachine && p.Machines.Contains(record.Machine.Id)
            );
        return (tells || isWhole) && !isSwitched ? WorkPlace.OnMachine : WorkPlace.OnBench;
    }
}
