using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation;

/// <summary>
/// Which step a rule asks for before hands go in, so that what is missing on a job that goes on can be told in the order
/// in which it is done.
/// </summary>
public static class StepsBeforeHands
{
    /// <summary>How a statement begins that tells of a step still to be done.</summary>
    internal const string NotYet = "Not yet shown";

    private const string Colon = ": ";
    private const string DoIt = ". Do it before ";

    /// <summary>The step that a check asks for before hands go in, the entry that stands for it; null: none.</summary>
    public static TimelineEventKind? Of(Check check) =>
        check switch
        {
            Check.RequiredEvent { When: RequiredWhen.BeforeWork } step => step.Events.Min(),
            Check.OrderOfEvents => TimelineEventKind.IsolationVerified,
            Check.Protection => TimelineEventKind.WorkStarted,
            Check.EnergyControl duty => Of(duty.Of),
            _ => null,
        };

    /// <summary>What a statement says is still to be done; null: it says something else.</summary>
    public static string? Missing(string statement)
    {
        ArgumentNullException.ThrowIfNull(statement);
        if (!statement.StartsWith(NotYet, StringComparison.Ordinal))
        {
            return null;
        }

        var said = statement[NotYet.Length..];
        var end = said.IndexOf(DoIt, StringComparison.Ordinal);
        var what = (end < 0 ? said : said[..end]).TrimEnd('.');
        return what.StartsWith(Colon, StringComparison.Ordinal) ? what[Colon.Length..] : what.TrimStart();
    }

    private static TimelineEventKind? Of(EnergyDuty duty) =>
        duty switch
        {
            EnergyDuty.AffectedTold
            or EnergyDuty.ContractorsInformed
            or EnergyDuty.PrimaryNamed
            or EnergyDuty.CoordinatorNamed => TimelineEventKind.AffectedNotifiedBefore,
            EnergyDuty.EnergyReviewed => TimelineEventKind.EnergyReviewed,
            EnergyDuty.OrderlyShutdown => TimelineEventKind.MachineShutDown,
            EnergyDuty.BlockageStopped => TimelineEventKind.SeenAtRest,
            EnergyDuty.SourcesIsolated => TimelineEventKind.IsolatorOperated,
            EnergyDuty.DeviceOnEachIsolator
            or EnergyDuty.OwnDeviceInGroup
            or EnergyDuty.OwnDeviceThroughWork => TimelineEventKind.LockApplied,
            EnergyDuty.StoredEnergyReleased or EnergyDuty.BlockagePressureReleased =>
                TimelineEventKind.StoredEnergyReleased,
            EnergyDuty.IsolationVerified
            or EnergyDuty.MakeSafeOrder
            or EnergyDuty.RelockedAfterTest
            or EnergyDuty.SourceAddedControlled => TimelineEventKind.IsolationVerified,
            EnergyDuty.EnergisedMeasuresFirst => TimelineEventKind.AlternativeMeasuresRecorded,
            _ => null,
        };
}
