using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// A claim of cord and plug holds: the mains cord is the only source, it is claimed before hands go in, and whoever works
/// pulled the plug and kept it before, alone, without it kept by somebody else, plugged in or the machine started since.
/// What rests on entries that prove nothing holds no more than what is not shown.
/// </summary>
internal static class CordAndPlugClaimDuty
{
    private static readonly Id<EnergySource> MainsCord = new("mains_cord");

    private const string Act =
        "Isolate and lock out every source: a plug that is pulled and kept is enough only where there is no other.";

    /// <summary>Whether it is claimed and shown to hold.</summary>
    public static bool Holds(DutyFrame duty) =>
        !Claims(duty).IsEmpty && Faults(duty).IsEmpty && duty.Reading.AreCredible(RestsOn(duty));

    public static CheckOutcome Judge(DutyFrame duty)
    {
        var claims = Claims(duty);
        if (claims.IsEmpty)
        {
            return TimelineOutcome.NotApplicable("Nobody claims cord and plug.");
        }

        var faults = Faults(duty);
        if (!faults.IsEmpty)
        {
            return Suppression.HoldingExemption(duty) is not null
                ? TimelineOutcome.NotApplicable("Another exemption holds, so this claim is not needed.")
                : TimelineOutcome.OfFaults(faults);
        }

        var kept = duty.Reading.Of(TimelineEventKind.PlugControlConfirmed);
        return TimelineOutcome.Met(
            duty.Reading,
            $"Cord and plug, {claims[^1].ByClaim}: the record shows the mains cord as the only source, and the plug pulled and kept {duty.Words.AtBy(kept[0])} before hands went in.",
            RestsOn(duty)
        );
    }

    private static ImmutableArray<OrderedEvent> RestsOn(DutyFrame duty) =>
        [
            .. Claims(duty).Select(made => made.Entry),
            .. duty.Reading.Of(TimelineEventKind.PlugRemoved, TimelineEventKind.PlugControlConfirmed),
        ];

    private static ImmutableArray<ClaimMade> Claims(DutyFrame duty) =>
        [.. duty.Claims.Where(made => made.Claim.Kind == ExemptionKind.CordAndPlug)];

    private static ImmutableArray<TimelineFault> Faults(DutyFrame duty)
    {
        var entries = Claims(duty).Select(made => made.Entry).ToImmutableArray();
        return
        [
            .. new[]
            {
                OtherSources(duty, entries),
                Suppression.ClaimedLate(duty, "Cord and plug", entries, Act),
                Suppression.EnteredLate(duty, "Cord and plug", entries, Act),
                Plug(duty, entries),
            }.OfType<TimelineFault>(),
        ];
    }

    private static TimelineFault? OtherSources(DutyFrame duty, ImmutableArray<OrderedEvent> entries)
    {
        var others = duty
            .Sources.Select(source => source.Source)
            .Where(source => source.Id != MainsCord)
            .ToList();
        return others.Count > 0
                ? Wrong(
                    FindingReason.ProcedureNotFollowed,
                    $"Cord and plug is claimed, and the machine also has {TimelineWords.Named(others)}.",
                    entries
                )
            : duty.Sources.IsEmpty
                ? new(
                    Verdict.Unproven,
                    FindingReason.NotRegistered,
                    $"Cord and plug is claimed, and neither a procedure nor the register of machines says what energy {duty.Record.Machine.Id} has.",
                    entries,
                    "Enter the machine and its sources of energy in the register."
                )
            : null;
    }

    private static TimelineFault? Plug(DutyFrame duty, ImmutableArray<OrderedEvent> entries)
    {
        if (!duty.Reading.StopsWithoutStart.IsEmpty)
        {
            return Wrong(
                FindingReason.StepMissing,
                "Cord and plug is claimed, and the record does not show when all work started, and so not that the plug was kept by then.",
                [.. entries, .. duty.Reading.StopsWithoutStart]
            );
        }

        if (duty.Reading.Works.IsEmpty)
        {
            return WithoutWork(duty, entries);
        }

        return duty
            .Reading.Works.Select(work => NotKept(duty, work, entries))
            .OfType<TimelineFault>()
            .FirstOrDefault();
    }

    private static TimelineFault? WithoutWork(DutyFrame duty, ImmutableArray<OrderedEvent> entries) =>
        duty
            .Reading.Of(TimelineEventKind.PlugControlConfirmed)
            .Any(entry => IsKeptBy(duty, entry.Event.Actor, entry.Place(), entry.Place()))
            ? null
        : duty.Reading.IsOpen
            ? new(
                Verdict.Unproven,
                FindingReason.InProgress,
                "Cord and plug is claimed, and the record does not show the plug pulled and kept yet.",
                entries,
                "Pull the plug yourself and keep it in sight and reach before touching the machine."
            )
        : Wrong(
            FindingReason.StepMissing,
            "Cord and plug is claimed, and the record does not show the plug pulled and kept.",
            entries
        );

    private static TimelineFault? NotKept(
        DutyFrame duty,
        WorkInterval work,
        ImmutableArray<OrderedEvent> entries
    ) =>
        IsKeptBy(duty, work.Person, work.Start.Place(), work.Interval.Until)
            ? null
            : Wrong(
                FindingReason.StepMissing,
                $"Cord and plug is claimed, and the record does not show the plug pulled and kept by {work.Person} alone before they started work at {duty.Words.Time(work.Start)}, and neither plugged in nor the machine started since.",
                [.. entries, work.Start]
            );

    // Pulled and kept by the same person, both since the machine last ran or was plugged in, and by nobody else after. A start
    // while they work ends it.
    private static bool IsKeptBy(
        DutyFrame duty,
        Id<Domain.Records.Participant> person,
        TimelinePlace by,
        TimelinePlace? until
    )
    {
        var ended = duty
            .Reading.Energisings.Concat(
                duty.Reading.Of(TimelineEventKind.IsolatorOperated, TimelineEventKind.SourceAdded)
                    .Where(IsPutOn)
            )
            .Concat(
                OfPlug(TimelineEventKind.PlugControlConfirmed).Where(entry => entry.Event.Actor != person)
            )
            .Places()
            .ToImmutableArray();
        var since = ended.Where(place => place < by).DefaultIfEmpty(TimelinePlace.Beginning).Max();
        return Has(TimelineEventKind.PlugRemoved)
            && Has(TimelineEventKind.PlugControlConfirmed)
            && !ended.Any(place => place >= by && (until is not { } end || place < end));

        bool Has(TimelineEventKind kind) =>
            OfPlug(kind)
                .Any(entry => entry.Event.Actor == person && entry.Place() >= since && entry.Place() <= by);

        IEnumerable<OrderedEvent> OfPlug(TimelineEventKind kind) =>
            duty
                .Reading.Of(kind)
                .Where(entry => entry.Event.Source is null || entry.Event.SpeaksOf(MainsCord));

        bool IsPutOn(OrderedEvent entry) =>
            entry.Event.SpeaksOf(MainsCord)
            && (
                entry.Event.Kind == TimelineEventKind.SourceAdded
                || entry.Event.Position == IsolatorPosition.On
            );
    }

    private static TimelineFault Wrong(
        FindingReason reason,
        string text,
        ImmutableArray<OrderedEvent> entries
    ) => new(Verdict.NotMet, reason, text, entries, Act);
}
