using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// What takes the ground from a duty: an exemption that holds, no device ever, no procedure, no group. What one duty
/// already says, another does not say again.
/// </summary>
internal static class Suppression
{
    /// <summary>Why a duty does not apply to a job; null: it is to be judged.</summary>
    public static CheckOutcome? Of(EnergyDuty of, DutyFrame duty)
    {
        var by = DutyTable.Of(of).SuppressedBy;
        return Reason(by, duty) is not { } reason ? null
            : by.HasFlag(Suppressors.NoGroup)
            && (of != EnergyDuty.CoordinatorNamed || GroupLeadDuties.IsOfSeveralCrews(duty))
            && HoldingExemption(duty) is null
            && MayBeGroup(duty) is { } untold
                ? untold
            : of == EnergyDuty.CoordinatorNamed
            && HoldingExemption(duty) is null
            && JobsAtOnce.Judge(duty) is not null
                ? null
            : of is EnergyDuty.PrimaryNamed or EnergyDuty.CoordinatorNamed
            && HoldingExemption(duty) is null
            && GroupWork.StepsBeside(duty).Any()
                ? null
            : TimelineOutcome.NotApplicable(reason);
    }

    /// <summary>
    /// The outcome of a check of safe work that is no duty, on a job whose exemption holds or that is a look from outside; null:
    /// it is to be judged. Minor servicing lifts the trade's own steps as well; a plug that is kept lifts isolation and nothing else.
    /// </summary>
    public static CheckOutcome? ByExemption(Rule rule, JobFrame job) =>
        rule.Check is Check.RequiredEvent or Check.OrderOfEvents or Check.Protection
        && LookFromOutside.Is(job)
            ? rule.Check is Check.Protection
                ? LookFromOutside.Judge(job)
                : TimelineOutcome.NotApplicable(LookFromOutside.NotAsked)
            : rule.Check is Check.RequiredEvent or Check.OrderOfEvents or Check.Protection
            && HoldingExemption(DutyFrame.Of(rule, job)) is { } claim
            && (claim.Claim.Kind == ExemptionKind.MinorServicing || IsOfIsolation(rule.Check))
                ? TimelineOutcome.NotApplicable(Excepted(claim))
                : null;

    /// <summary>The claim of an exemption that holds in everything it must, or null.</summary>
    public static ClaimMade? HoldingExemption(DutyFrame duty) =>
        duty.Claims.IsEmpty ? null
        : MinorServicingClaimDuty.Holds(duty) ? duty.Claims.Last(Is(ExemptionKind.MinorServicing))
        : CordAndPlugClaimDuty.Holds(duty) ? duty.Claims.Last(Is(ExemptionKind.CordAndPlug))
        : null;

    /// <summary>A claim that nobody made before hands went in: it was no reason to put them in.</summary>
    public static TimelineFault? ClaimedLate(
        DutyFrame duty,
        string what,
        ImmutableArray<OrderedEvent> claims,
        string act
    ) =>
        duty.Reading.FirstWork is { Start: var start }
        && claims.All(entry => entry.Place() > start.Place())
        && claims is [var first, ..]
            ? new(
                Verdict.NotMet,
                FindingReason.WrongOrder,
                $"{what} is claimed only at {duty.Words.Time(first)}, after work started {duty.Words.AtBy(start)}.",
                [first, start],
                act
            )
            : null;

    /// <summary>
    /// A claim of before hands went in that was entered only after, by its own label: that anybody decided it in time is
    /// not shown.
    /// </summary>
    public static TimelineFault? EnteredLate(
        DutyFrame duty,
        string what,
        ImmutableArray<OrderedEvent> claims,
        string act
    )
    {
        if (duty.Reading.FirstWork is not { Start: var start })
        {
            return null;
        }

        var inTime = claims.Where(entry => entry.Place() < start.Place()).ToImmutableArray();
        return inTime is [var first, ..] && inTime.All(IsEnteredAfter)
            ? new(
                Verdict.Unproven,
                FindingReason.NotCredible,
                $"{what} is claimed at {duty.Words.Time(first)} by an entry that is labelled as made later{(first.Event.ReceivedAt is { } received ? $", received at {received.Text}" : string.Empty)}, and work started {duty.Words.AtBy(start)}: that it was decided before hands went in is not shown.",
                [first, start],
                act
            )
            : null;

        bool IsEnteredAfter(OrderedEvent claim) =>
            claim.IsLabelledLate()
            && (
                claim.Event.ReceivedAt is not { } received
                || JudgedOrder.MomentOf(received, duty.Job.Context.Zone) > start.Moment
            );
    }

    /// <summary>
    /// No lock or tag was ever put on, nor a plug kept, and hands went in or the job is over: that is said once, of the
    /// devices, and neither of notices nor of what comes before devices are taken off. Where nothing can be switched off,
    /// nothing is said of devices, and the rest is asked all the same.
    /// </summary>
    public static bool IsWithoutDevice(DutyFrame duty) =>
        duty.Reading.Devices.IsEmpty
        && duty.Reading.Of(TimelineEventKind.PlugControlConfirmed).IsEmpty
        && (duty.Sources.IsEmpty || duty.Sources.Any(source => source.HasIsolator))
        && !IsStillToBegin(duty);

    /// <summary>
    /// There is no procedure of the machine, or it is one of a bench where nothing can be switched on: there is
    /// nothing to inspect.
    /// </summary>
    public static bool HasNothingToInspect(DutyFrame duty) =>
        ProcedureInUse.Of(duty) is not { Procedure: var procedure }
        || (
            duty.Record.Place == WorkPlace.OnBench
            && !procedure.Sources.Any(source => source.Isolator is not null)
        );

    /// <summary>
    /// The record shows no two people at work at one time, as a plain change of shift does not; on a job that is still to
    /// begin, not more than one with a part in it.
    /// </summary>
    public static bool IsWithoutGroup(DutyFrame duty) =>
        IsStillToBegin(duty)
            ? duty.Reading.HandsIn.Length < 2
            : HandsBeside.Of(duty).IsEmpty
                && !duty.Reading.Works.Any(one =>
                    duty.Reading.Works.Any(other =>
                        other.Person != one.Person && !one.Interval.Overlap(other.Interval).IsEmpty
                    )
                );

    // Work whose start is not told may have gone on beside that of another.
    private static CheckOutcome? MayBeGroup(DutyFrame duty)
    {
        var reading = duty.Reading;
        var untold = reading
            .StopsWithoutStart.Where(stop =>
                reading.Works.Any(work =>
                    work.Person != stop.Event.Actor && work.Start.Place() < stop.Place()
                ) || reading.StopsWithoutStart.Any(other => other.Event.Actor != stop.Event.Actor)
            )
            .ToList();
        return untold.Count == 0
            ? null
            : TimelineOutcome.OfFaults([
                .. untold.Select(stop => new TimelineFault(
                    Verdict.Unproven,
                    FindingReason.StepMissing,
                    $"The record shows {stop.Event.Actor} at work until {duty.Words.Time(stop)}, and does not show from when: whether others were at work at that time cannot be told.",
                    [stop],
                    "Enter when hands-on work started, as a late entry."
                )),
            ]);
    }

    private static string? Reason(Suppressors by, DutyFrame duty) =>
        by.HasFlag(Suppressors.Exemption) && HoldingExemption(duty) is { } claim ? Excepted(claim)
        : by.HasFlag(Suppressors.Exemption) && LookFromOutside.Is(duty.Job) ? LookFromOutside.NotAsked
        : by.HasFlag(Suppressors.NoDevice) && IsWithoutDevice(duty)
            ? "The record shows no lock or tag at all, which is said of the devices."
        : by.HasFlag(Suppressors.NothingToInspect) && HasNothingToInspect(duty)
            ? "There is no procedure of controlling energy to inspect."
        : by.HasFlag(Suppressors.NoGroup) && IsWithoutGroup(duty)
            ? "The record shows no two people at work at one time."
        : null;

    private static bool IsOfIsolation(Check check) =>
        check is not Check.RequiredEvent { Events: var events } || events.Any(IsOfIsolation);

    private static bool IsOfIsolation(TimelineEventKind kind) =>
        kind
            is TimelineEventKind.AffectedNotifiedBefore
                or TimelineEventKind.EnergyReviewed
                or TimelineEventKind.MachineShutDown
                or TimelineEventKind.IsolatorOperated
                or TimelineEventKind.PlugRemoved
                or TimelineEventKind.LockApplied
                or TimelineEventKind.TagApplied
                or TimelineEventKind.StoredEnergyReleased
                or TimelineEventKind.IsolationVerified
                or TimelineEventKind.RemovalNotified;

    private static bool IsStillToBegin(DutyFrame duty) =>
        duty.Reading.IsOpen && duty.Reading.FirstWork is null;

    private static string Excepted(ClaimMade claim) =>
        claim.Claim.Kind == ExemptionKind.CordAndPlug
            ? $"The plug was the only source and was kept by whoever worked, {claim.ByClaim}, so the duties of isolation do not apply."
            : $"Minor servicing in use, {claim.ByClaim}, and the claim holds, so the duties of isolation do not apply.";

    private static Func<ClaimMade, bool> Is(ExemptionKind kind) => made => made.Claim.Kind == kind;
}
