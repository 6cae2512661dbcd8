using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// A claim of minor servicing holds: the machine is in use, the task is routine, repetitive and part of that use, hands
/// stay out of the reach of the blades, and other measures against the energy were in place before work. What the bench
/// log shows of hands at the blades, and the timeline of the measures, is believed before what the record says of them.
/// </summary>
internal static class MinorServicingClaimDuty
{
    private const string Act =
        "Isolate and lock out as for any other work: the claim of minor servicing does not hold.";

    private const string ToHold = "for the claim of minor servicing, instead of isolating and locking out: ";

    /// <summary>Whether it is claimed and shown to hold: what rests on entries that prove nothing is not.</summary>
    public static bool Holds(DutyFrame duty) =>
        !Claims(duty).IsEmpty && Faults(duty).IsEmpty && duty.Reading.AreCredible(RestsOn(duty));

    public static CheckOutcome Judge(DutyFrame duty)
    {
        var claims = Claims(duty);
        if (claims.IsEmpty)
        {
            return SaidToStayOut(duty) ?? TimelineOutcome.NotApplicable("Nobody claims minor servicing.");
        }

        var faults = Faults(duty);
        if (!faults.IsEmpty)
        {
            return Suppression.HoldingExemption(duty) is not null
                ? TimelineOutcome.NotApplicable("Another exemption holds, so this claim is not needed.")
                : WithBenchLog(duty, TimelineOutcome.OfFaults(faults));
        }

        var measures = MeasuresOf(duty);
        var met = TimelineOutcome.Met(
            duty.Reading,
            $"Minor servicing in use, {claims[^1].ByClaim}: the record shows all that the claim needs, other measures {duty.Words.AtBy(measures[0])}, and no entry against it.",
            RestsOn(duty)
        );
        return met with { Notices = [.. met.Notices, .. ClaimDecided.Told(duty, claims)] };
    }

    /// <summary>What a record says of hands is held against its entries, whether or not anything is claimed for it.</summary>
    private static CheckOutcome? SaidToStayOut(DutyFrame duty)
    {
        if (
            duty.Record.HandsInBladeZone != false
            || HandsAtTheBlades.Shown(duty) is not { IsEmpty: false } shown
        )
        {
            return null;
        }

        return TimelineOutcome.Of(
            Verdict.Unproven,
            FindingReason.NotCredible,
            $"The record says that hands stayed out of the reach of the blades, and shows {TimelineWords.List(shown.Select(one => one.What).Distinct(StringComparer.Ordinal))}: these are hands in their reach.",
            [
                .. shown
                    .Select(one => one.Pointer)
                    .Distinct(StringComparer.Ordinal)
                    .Order(StringComparer.Ordinal),
            ],
            "Correct what the record says of hands; have whoever did it say where hands were."
        );
    }

    private static ImmutableArray<OrderedEvent> RestsOn(DutyFrame duty) =>
        [
            .. Claims(duty).Select(made => made.Entry),
            .. MeasuresOf(duty)
                .Where(entry =>
                    duty.Reading.FirstWork is not { Start: var start } || entry.Place() < start.Place()
                )
                .OrderBy(entry => !entry.Event.Measures.Any(MeasureWords.AgainstEnergy.Contains))
                .ThenBy(entry => duty.Reading.Weakened.Contains(entry.Pointer()))
                .Take(1),
            .. ShownBy(duty),
        ];

    // Where every measure that counts is one that a step shows, the claim rests on that step.
    private static IEnumerable<OrderedEvent> ShownBy(DutyFrame duty)
    {
        var counting = MeasuresOf(duty)
            .SelectMany(entry => entry.Event.Measures)
            .Where(MeasureWords.AgainstEnergy.Contains)
            .Distinct()
            .Where(measure => MeasuresInTimeline.Lacking(duty, measure) is null)
            .Select(measure => MeasuresInTimeline.StepsOf(duty, measure))
            .ToList();
        return counting.Exists(steps => steps.IsEmpty)
            ? []
            : counting
                .SelectMany(steps => steps)
                .OrderBy(step => duty.Reading.Weakened.Contains(step.Pointer()))
                .Take(1);
    }

    private static ImmutableArray<ClaimMade> Claims(DutyFrame duty) =>
        [.. duty.Claims.Where(made => made.Claim.Kind == ExemptionKind.MinorServicing)];

    private static ImmutableArray<TimelineFault> Faults(DutyFrame duty)
    {
        var claims = Claims(duty);
        var entries = claims.Select(made => made.Entry).ToImmutableArray();
        var wrong = new List<string>();
        if (duty.Record.Setting != WorkSetting.InUse)
        {
            wrong.Add("the machine was in the workshop, not in use");
        }

        if (duty.HandsInBladeZone)
        {
            wrong.Add(
                duty.Record.HandsInBladeZone is null
                    ? "the record does not say that hands stayed out of the reach of the blades"
                    : "hands went into the reach of the blades"
            );
        }

        var shown = HandsAtTheBlades
            .Shown(duty)
            .Select(one => one.What)
            .Distinct(StringComparer.Ordinal)
            .ToList();
        if (shown.Count > 0 && duty.Record.HandsInBladeZone == false)
        {
            wrong.Add(
                $"hands are said to have stayed out of the reach of the blades, but the record shows {TimelineWords.List(shown)}"
            );
        }

        wrong.AddRange(claims.SelectMany(made => NotSaid(made.Claim)).Distinct(StringComparer.Ordinal));
        var against = MeasuresInTimeline.Against(
            duty,
            [.. MeasuresOf(duty).SelectMany(entry => entry.Event.Measures).Distinct()]
        );
        wrong.AddRange(against.Select(one => one.What));
        var tests = TestsAtWork(duty);
        wrong.AddRange(
            tests.Select(run =>
                $"the record shows {EventWords.Done(run.Event.Kind)} {duty.Words.AtBy(run)}, before the work was over"
            )
        );
        TimelineFault? facts =
            wrong.Count == 0
                ? null
                : new(
                    Verdict.NotMet,
                    FindingReason.ProcedureNotFollowed,
                    $"Minor servicing is claimed, and {TimelineWords.List(wrong)}.",
                    [.. entries.Concat(against.Select(one => one.Entry)).Concat(tests).Distinct()],
                    Act
                );
        return
        [
            .. new[]
            {
                facts,
                Suppression.ClaimedLate(duty, "Minor servicing", entries, Act),
                Suppression.EnteredLate(duty, "Minor servicing", entries, Act),
                ClaimDecided.Fault(duty, claims, Act),
                ReadWhileItMayHaveRun(duty, entries),
                GaugesHeld(duty, entries),
                Measures(duty, entries),
            }.OfType<TimelineFault>(),
            .. ClaimedAtRest.Faults(duty, entries),
            .. ClaimAmidWork.Faults(duty, entries),
            .. SourcesAdded(duty, entries),
            .. SaidOtherwise(duty, entries),
        ];
    }

    /// <summary>
    /// Runs for a test before the work is over: they are no part of using the machine. A task that the procedure has done
    /// on the running reel, and turned from outside, is none.
    /// </summary>
    private static ImmutableArray<OrderedEvent> TestsAtWork(DutyFrame duty)
    {
        if (duty.Reading.FirstWork is null)
        {
            return [];
        }

        var end = duty.Reading.EndOfWork();
        return
        [
            .. MachineRun
                .Tests(duty)
                .Where(run => end is null || run.Start.Place() < end.Place())
                .Where(run => run.Task is not { } task || !HandsAtTheBlades.IsFromOutside(duty, task))
                .Select(run => run.Start),
        ];
    }

    private static TimelineFault? ReadWhileItMayHaveRun(
        DutyFrame duty,
        ImmutableArray<OrderedEvent> entries
    ) =>
        HandsAtTheBlades.MayHaveReadRunning(duty) && !HandsAtTheBlades.ReadRunning(duty)
            ? new(
                Verdict.Unproven,
                FindingReason.StepMissing,
                "Minor servicing is claimed, the record shows the machine running for a part of the work, and readings without a time: that none was taken while it ran is not shown.",
                entries,
                "Enter when the readings were taken, as late entries."
            )
            : null;

    // A gauge is held by hand; how near to the blades, its reading does not tell.
    private static TimelineFault? GaugesHeld(DutyFrame duty, ImmutableArray<OrderedEvent> entries) =>
        duty.Record.HandsInBladeZone == false && HandsAtTheBlades.GaugesHeld(duty) is { IsEmpty: false } held
            ? new(
                Verdict.Unproven,
                FindingReason.StepMissing,
                $"Minor servicing is claimed, with hands said to stay out of the reach of the blades, and the record shows {TimelineWords.List(held.Select(one => one.What).Distinct(StringComparer.Ordinal))}: that hands stayed out is not shown.",
                entries,
                "Have whoever read it say where hands were, or isolate and lock out before a gauge is held to the unit.",
                [.. held.Select(one => one.Pointer)]
            )
            : null;

    private static IEnumerable<TimelineFault> SaidOtherwise(
        DutyFrame duty,
        ImmutableArray<OrderedEvent> entries
    ) =>
        from spoken in MeasuresOf(duty)
        where MeasuresForRun.SaysGuardsOff(spoken)
        select new TimelineFault(
            Verdict.Unproven,
            FindingReason.NotCredible,
            $"Minor servicing is claimed, and of the other measures {duty.Words.AtBy(spoken)} it is said `{MeasuresForRun.WordsOfGuardsOff(spoken)}`.",
            [.. entries, spoken],
            "Have whoever was there say whether the guards were on."
        );

    /// <summary>What is brought to the machine after the claim was made: the claim was not decided for it.</summary>
    private static IEnumerable<TimelineFault> SourcesAdded(
        DutyFrame duty,
        ImmutableArray<OrderedEvent> entries
    ) =>
        from added in duty.Reading.Of(TimelineEventKind.SourceAdded)
        where
            added.Event.Source is SourceReference.One
            && added.Place() > entries[^1].Place()
            && (duty.Reading.EndOfWork() is not { } end || added.Place() < end.Place())
        select new TimelineFault(
            Verdict.Unproven,
            FindingReason.StepMissing,
            $"Minor servicing is claimed, and the record shows {EventWords.Done(added.Event.Kind)} ({((SourceReference.One)added.Event.Source!).Source}) {duty.Words.AtBy(added)}, after the claim: that it was decided for this as well is not shown.",
            [.. entries, added],
            "Isolate and lock out what was added, or have the claim decided anew before hands go on."
        );

    private static IEnumerable<string> NotSaid(ExemptionClaim claim)
    {
        if (claim.Routine != true)
        {
            yield return "the task is not said to be routine";
        }

        if (claim.Repetitive != true)
        {
            yield return "the task is not said to be repetitive";
        }

        if (claim.Integral != true)
        {
            yield return "the task is not said to be part of using the machine";
        }
    }

    private static TimelineFault? Measures(DutyFrame duty, ImmutableArray<OrderedEvent> entries)
    {
        var measures = MeasuresOf(duty);
        if (duty.Reading.FirstWork is not { Start: var start } || !duty.Reading.StopsWithoutStart.IsEmpty)
        {
            return !duty.Reading.IsOpen || !duty.Reading.StopsWithoutStart.IsEmpty
                    ? Missing(
                        "the record does not show when work started, and so not that other measures were in place before it",
                        [.. entries, .. duty.Reading.StopsWithoutStart]
                    )
                : !measures.IsEmpty ? Strength(duty, measures, entries)
                : new(
                    Verdict.Unproven,
                    FindingReason.InProgress,
                    "Minor servicing is claimed, and the record does not show the other measures yet.",
                    entries,
                    "Put the measures in place and record them before work starts.",
                    StillToDo: ToHold + "the other measures in place and recorded"
                );
        }

        var inTime = measures.Where(entry => entry.Place() < start.Place()).ToImmutableArray();
        return !inTime.IsEmpty
            ? Strength(duty, inTime, entries)
            : Missing(
                measures.IsEmpty
                    ? "the record does not show the other measures"
                    : $"the other measures were recorded {duty.Words.AtBy(measures[0])}, not before work started at {duty.Words.Time(start)}",
                [.. entries, .. measures, start]
            );
    }

    /// <summary>Measures that keep nobody's hands from the energy are none; what is told in words a person must judge.</summary>
    private static TimelineFault? Strength(
        DutyFrame duty,
        ImmutableArray<OrderedEvent> measures,
        ImmutableArray<OrderedEvent> entries
    )
    {
        var named = measures.SelectMany(entry => entry.Event.Measures).Distinct().ToImmutableArray();
        var counting = named.Where(MeasureWords.AgainstEnergy.Contains).ToImmutableArray();
        var lacking = counting
            .Select(measure => MeasuresInTimeline.Lacking(duty, measure))
            .OfType<string>()
            .ToImmutableArray();
        if (counting.Length > lacking.Length)
        {
            return null;
        }

        if (!counting.IsEmpty)
        {
            var isToBegin = duty.Reading.IsOpen && duty.Reading.FirstWork is null;
            return new(
                Verdict.Unproven,
                isToBegin ? FindingReason.InProgress : FindingReason.StepMissing,
                $"Minor servicing is claimed, {TimelineWords.List(counting.Select(MeasureWords.Of))} is said to keep hands from the energy, and the record does not show {TimelineWords.List(lacking)}{(isToBegin ? " yet" : " before work")}.",
                [.. entries, .. measures],
                isToBegin
                    ? "Do it and enter it before work starts."
                    : "Enter the step that the measure names, as a late entry, if it was done.",
                StillToDo: isToBegin ? ToHold + TimelineWords.List(lacking) : null
            );
        }

        var isOnThePerson = named.All(MeasureWords.IsOnThePerson);
        return new(
            isOnThePerson ? Verdict.NotMet : Verdict.Unproven,
            isOnThePerson ? FindingReason.ProcedureNotFollowed : FindingReason.StepMissing,
            $"Minor servicing is claimed, and the only other measures that the record shows are {TimelineWords.List(named.Select(MeasureWords.Of))}: {(isOnThePerson ? "that protects nobody from the energy" : "that they protect from the energy is not shown")}.",
            [.. entries, .. measures],
            $"Isolate and lock out, or name before work what keeps hands from the energy: {TimelineWords.List(MeasureWords.AgainstEnergy.Select(MeasureWords.Of))}."
        );
    }

    private static CheckOutcome WithBenchLog(DutyFrame duty, CheckOutcome outcome) =>
        duty.Record.HandsInBladeZone != false
            ? outcome
            : outcome with
            {
                Evidence =
                [
                    .. outcome
                        .Evidence.Concat(HandsAtTheBlades.Shown(duty).Select(one => one.Pointer))
                        .Distinct(StringComparer.Ordinal)
                        .Order(StringComparer.Ordinal),
                ],
            };

    private static TimelineFault Missing(string what, ImmutableArray<OrderedEvent> entries) =>
        new(
            Verdict.NotMet,
            FindingReason.StepMissing,
            $"Minor servicing is claimed, and {what}.",
            entries,
            Act
        );

    // Measures that are not named are none.
    private static ImmutableArray<OrderedEvent> MeasuresOf(DutyFrame duty) =>
        [
            .. duty
                .Reading.Of(TimelineEventKind.AlternativeMeasuresRecorded)
                .Where(entry => !entry.Event.Measures.IsEmpty),
        ];
}
