using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Oracle.SafeWork;

/// <summary>Paragraph (a) and the note to (c)(4)(i): what is claimed not to need the full control, and whether it holds.</summary>
internal static class ScopeRows
{
    private const string MainsCord = "mains_cord";

    public static Possible MinorServicing(Story story)
    {
        var claims = story.Claims(ExemptionKind.MinorServicing).ToList();
        if (claims.Count == 0)
        {
            // What is said of hands is held against the bench log, claimed or not.
            return story.Record.HandsInBladeZone == false && (ReachedIn(story) || IsTouched(story))
                ? Possible.Unproven
                : Possible.NotApplicable;
        }

        bool inUse = story.Record.Setting == WorkSetting.InUse;
        bool handsIn = story.Record.HandsInBladeZone != false;
        bool facts = claims.All(c => c.Event.Claim is { Routine: true, Repetitive: true, Integral: true });
        if (!inUse || handsIn || !facts || ReachedIn(story))
        {
            return Possible.NotMet;
        }

        var measures = story
            .BeforeWork.Where(s => s.Kind == TimelineEventKind.AlternativeMeasuresRecorded)
            .ToList();
        if (
            claims.All(c => story.FirstWork?.Before(c) == true)
            || IsBelied(story)
            || IsTouched(story)
            || IsTestedAtWork(story)
            || (IsMeasured(story) && RanThroughout(story))
        )
        {
            return Possible.NotMet;
        }

        if (IsDecidedLate(story, claims) || (IsMeasured(story) && story.WithHandsIn.Any(story.RunsAfter)))
        {
            // What the measures come to may be worse.
            return measures.Count == 0 ? Possible.NotMet | Possible.Unproven : Possible.NeverMet;
        }

        if (story.StrayStops.Any() || (!story.IsOpen && !story.HandsWentIn))
        {
            // Since when hands were in is not told, and so not what was there before.
            return Possible.NeverMet;
        }

        if (measures.Count == 0)
        {
            return story.HandsWentIn ? Possible.NotMet : Possible.NeverMet;
        }

        if (
            !IsStoodStill(story)
            || IsWidened(story, claims)
            || IsDecidedByNobody(story, claims)
            || IsInUseAmidWork(story)
        )
        {
            return Possible.NeverMet;
        }

        bool inTime = measures.Any(m =>
            !m.Event.Measures.IsEmpty && !(story.FirstWork is { } work && m.At >= work.At)
        );
        return Protects([.. measures.SelectMany(m => m.Event.Measures).Where(m => IsShown(story, m))])
            ? IsGaugeHeld(story)
                ? Possible.NeverMet
                : Possible.Met.OrStricter(!inTime || IsGauged(story))
            : Possible.NeverMet;
    }

    /// <summary>Effective other measures: what is only worn protects from no energy, what is only told is for a person.</summary>
    private static bool Protects(IReadOnlyCollection<ProtectiveMeasure> measures)
    {
        ProtectiveMeasure[] keeping =
        [
            ProtectiveMeasure.GuardsInPlace,
            ProtectiveMeasure.LongHandledBrush,
            ProtectiveMeasure.ExtensionTool,
            ProtectiveMeasure.KeyRemovedAndKept,
            ProtectiveMeasure.EngineOff,
            ProtectiveMeasure.SingleOperatorControl,
            ProtectiveMeasure.SecondPersonAtStopControl,
        ];
        return measures.Any(keeping.Contains);
    }

    /// <summary>A measure that is one step, or one more person, is there where the record shows the step or the person.</summary>
    private static bool IsShown(Story story, ProtectiveMeasure measure) =>
        measure switch
        {
            ProtectiveMeasure.EngineOff => story.BeforeWork.Any(s =>
                s.Kind == TimelineEventKind.MachineShutDown
            ),
            ProtectiveMeasure.KeyRemovedAndKept => story.BeforeWork.Any(s =>
                s.Kind == TimelineEventKind.KeyRemoved
            ),
            ProtectiveMeasure.SecondPersonAtStopControl => story
                .Record.People.Where(p => p.Role != JobRole.Affected)
                .Select(p => p.Id.Text)
                .Concat(story.Workers)
                .Distinct()
                .Count() > 1,
            _ => true,
        };

    /// <summary>What is said to have kept people safe was, by the record's own events, not so.</summary>
    private static bool IsBelied(Story story)
    {
        var said = story
            .Steps.Where(s => s.Kind == TimelineEventKind.AlternativeMeasuresRecorded)
            .SelectMany(s => s.Event.Measures)
            .ToHashSet();
        bool ran = story.WithHandsIn.Any(story.RunsAfter);
        bool guardsWereOff =
            story.FirstWork is { } work
            && story.Steps.Any(s => s.Kind == TimelineEventKind.GuardsRefitted && work.Before(s));
        bool anotherStarts = story.WithHandsIn.Any(s =>
            s.Kind is TimelineEventKind.TestEnergised or TimelineEventKind.MachineStarted
            && story.Spells.All(spell => spell.Person != s.By)
        );
        return (
                ran
                && (
                    said.Contains(ProtectiveMeasure.EngineOff)
                    || said.Contains(ProtectiveMeasure.KeyRemovedAndKept)
                )
            )
            || (guardsWereOff && said.Contains(ProtectiveMeasure.GuardsInPlace))
            || (anotherStarts && said.Contains(ProtectiveMeasure.SingleOperatorControl));
    }

    /// <summary>Something of the machine was switched, moved or tried while hands were in, with no lock besides.</summary>
    private static bool IsInUseAmidWork(Story story) =>
        story.WithHandsIn.Any(s =>
            s.Kind
                is TimelineEventKind.DriveDisengaged
                    or TimelineEventKind.EnergisedTaskPerformed
                    or TimelineEventKind.CutOutsProved
                    or TimelineEventKind.UnitsLowered
            || s.Event is { Kind: TimelineEventKind.IsolatorOperated, Position: IsolatorPosition.On }
        );

    /// <summary>A wedge between the blades and a prop under the unit are put there by hand.</summary>
    private static bool IsTouched(Story story) =>
        story.Steps.Any(s => s.Kind is TimelineEventKind.ReelWedged or TimelineEventKind.UnitSupported);

    /// <summary>Stopped when hands, or a gauge, came to the unit, and stopped all the while they were there.</summary>
    private static bool IsStoodStill(Story story)
    {
        bool ran = story.Steps.Any(s =>
            s.Kind == TimelineEventKind.MachineStarted
            && story.Spells.Any(work => work.Start.Before(s) && s.Place < work.End)
        );
        return !ran
            && story.Spells.All(work => StoppedBefore(story, work.Start.Place))
            && (story.Spells.Count > 0 || StoppedBefore(story, int.MaxValue));
    }

    // The order of the bench log and the timeline is not gone into here.
    private static bool IsGauged(Story story) =>
        story.Record.Units.Any(unit =>
            unit.Entries.Any(entry =>
                entry is not Reading { Observed: Observation.Seen } && entry.At is not null
            )
        );

    private static bool StoppedBefore(Story story, int place)
    {
        bool stopped = false;
        foreach (var step in story.Entered.Where(s => s.Place < place))
        {
            stopped = step.Kind switch
            {
                TimelineEventKind.MachineShutDown
                or TimelineEventKind.TestEnded
                or TimelineEventKind.KeyRemoved
                or TimelineEventKind.PlugRemoved
                or TimelineEventKind.IsolationVerified => true,
                TimelineEventKind.IsolatorOperated when step.Event.Position != IsolatorPosition.On => true,
                TimelineEventKind.MachineStarted or TimelineEventKind.TestEnergised => false,
                _ => stopped,
            };
        }

        return stopped;
    }

    /// <summary>More energy came to the machine than the claim was made of.</summary>
    private static bool IsWidened(Story story, List<Step> claims) =>
        story.Additions.Any(s =>
            claims.TrueForAll(claim => claim.Before(s)) && (story.LastStop is not { } stop || s.Before(stop))
        );

    /// <summary>The name that is given for whoever decided it stands in no register.</summary>
    private static bool IsDecidedByNobody(Story story, List<Step> claims) =>
        story.Context.People.Length > 0
        && claims.Exists(claim =>
            claim.Event.Claim?.DecidedBy is { } by && story.Context.People.All(person => person.Id != by)
        );

    /// <summary>Servicing in use tests nothing: a machine energised for a test before hands are out is being worked on.</summary>
    private static bool IsTestedAtWork(Story story) =>
        story.HandsWentIn
        && story.Steps.Any(s =>
            s.Kind == TimelineEventKind.TestEnergised && (story.LastStop is not { } stop || s.Before(stop))
        );

    private static bool IsMeasured(Story story) =>
        story.Record.Units.Any(unit =>
            unit.Entries.Any(entry => entry is Reading { Observed: not Observation.Seen })
        );

    /// <summary>A gauge beside the blades is held by a hand beside them.</summary>
    private static bool IsGaugeHeld(Story story) =>
        story.Record.Units.Any(unit =>
            unit.Entries.Any(entry =>
                entry
                    is Reading
                    {
                        Observed: Observation.Measured,
                        Quantity: MeasuredQuantity.FrontRoller
                            or MeasuredQuantity.GroomerHeight
                            or MeasuredQuantity.Attitude
                            or MeasuredQuantity.Edge
                    }
            )
        );

    private static bool RanThroughout(Story story) =>
        story.HandsWentIn && story.WithHandsIn.All(story.RunsAfter);

    private static bool IsDecidedLate(Story story, List<Step> claims) =>
        claims.Where(c => story.FirstWork is { } work && c.Before(work)).ToList() is { Count: > 0 } inTime
        && inTime.TrueForAll(story.IsEnteredAfterWork);

    /// <summary>The bench log tells of hands where the blades are, whatever is said of hands.</summary>
    private static bool ReachedIn(Story story) =>
        story.Record.Tasks.Any(task =>
            task
                is ServiceTask.Lap
                    or ServiceTask.Grind
                    or ServiceTask.TouchUp
                    or ServiceTask.FullService
                    or ServiceTask.SeasonalOverhaul
        )
        || story.Record.Units.Any(unit =>
            unit.Entries.Any(entry =>
                entry is Adjustment or Grinding or PartFitted
                || (
                    entry is Reading reading
                    && (
                        reading.Quantity == MeasuredQuantity.BearingPlay
                        || reading.Observed
                            is Observation.FeelerTest
                                or Observation.Contact
                                or Observation.Paper
                    )
                )
            )
        );

    public static Possible CordAndPlug(Story story)
    {
        var claims = story.Claims(ExemptionKind.CordAndPlug).ToList();
        if (claims.Count == 0)
        {
            return Possible.NotApplicable;
        }

        if (story.Sources.Count == 0)
        {
            return Possible.NeverMet;
        }

        if (story.Sources.Any(s => s.Id.Text != MainsCord))
        {
            return Possible.NotMet;
        }

        if (story.StrayStops.Any())
        {
            return Possible.NeverMet;
        }

        var pulled = Of(story, TimelineEventKind.PlugRemoved);
        var kept = Of(story, TimelineEventKind.PlugControlConfirmed);
        if (IsDecidedLate(story, claims))
        {
            return Possible.NeverMet;
        }

        bool sameHand = pulled.Any(p => kept.Any(k => k.By == p.By));
        if (!sameHand)
        {
            return story.HandsWentIn ? Possible.NotMet : Possible.NeverMet;
        }

        bool worker = pulled.Any(p =>
            kept.Any(k =>
                k.By == p.By
                && p.Before(k)
                && story.Workers.All(w => w == p.By)
                && (story.FirstWork is not { } work || k.At < work.At)
            )
        );
        bool ran =
            story.Steps.Any(s => s.Kind == TimelineEventKind.TestEnergised)
            || story.Steps.Any(s =>
                s.Kind == TimelineEventKind.MachineStarted && story.Spells.Any(work => s.Place < work.End)
            );
        bool severalKeep = story
            .Steps.Where(s => s.Kind == TimelineEventKind.PlugControlConfirmed)
            .Select(s => s.By)
            .Distinct()
            .Skip(1)
            .Any();
        bool backIn = story.Steps.Any(s => PutsIn(s) && story.Spells.Any(work => s.Place < work.End));
        return Possible.Met.OrStricter(!worker || ran || severalKeep || backIn);
    }

    private static bool PutsIn(Step s) =>
        s.IsOf(MainsCord)
        && (
            s.Kind == TimelineEventKind.SourceAdded
            || (s.Kind == TimelineEventKind.IsolatorOperated && s.Event.Position == IsolatorPosition.On)
        );

    /// <summary>Plugged in again and not pulled since, when hands go in.</summary>
    private static bool IsIn(Story story, Step start) =>
        story.Steps.LastOrDefault(s =>
            s.Before(start) && (PutsIn(s) || s.Kind == TimelineEventKind.PlugRemoved)
        )
            is { } last
        && PutsIn(last);

    public static Possible Undocumented(Story story)
    {
        var claims = story.Claims(ExemptionKind.UndocumentedProcedure).ToList();
        if (claims.Count == 0)
        {
            return Possible.NotApplicable;
        }

        if (story.Sources.Count == 0)
        {
            return Possible.NeverMet;
        }

        bool facts = claims.All(c => c.Event.Claim?.Facts is { AreAllTrue: true });
        bool simple = story.Sources.Count == 1 && !story.Sources.Any(s => s.Stored || s.Reaccumulates);
        var locks = story.Steps.Where(s => s.IsDeviceOn).Select(s => s.Device).Distinct().Count();
        return facts && simple ? Possible.Met.OrStricter(locks != 1) : Possible.NotMet;
    }

    /// <summary>Whether an exemption that sets the whole of the control aside holds.</summary>
    public static Possible Exempt(Story story) => story.Exemption;

    /// <summary>The same, reckoned.</summary>
    public static Possible ExemptionOf(Story story)
    {
        var both = new[] { MinorServicing(story), CordAndPlug(story) };
        bool doubtful = SafeWorkOpinion.Doubts(story).Any(flag => flag.HasFlag(Possible.Unproven));
        return both.Any(p => p == Possible.Met) && !doubtful ? Possible.Met
            : both.Any(p => p.HasFlag(Possible.Met)) ? Possible.Any
            : Possible.NotMet;
    }

    private static List<Step> Of(Story story, TimelineEventKind kind) =>
        [.. story.BeforeWork.Where(s => s.Kind == kind && (s.Event.Source is null || s.IsOf(MainsCord)))];
}
