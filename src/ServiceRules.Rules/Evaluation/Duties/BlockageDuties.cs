using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// Clearing a blocked reel: stopped and seen at rest, pressure released, by a tool and never by hand, and looked over after.
/// A jammed reel is loaded until it turns freely.
/// </summary>
internal static class BlockageDuties
{
    private const string HydraulicPrefix = "hydraulic";

    /// <summary>The machine shut down, and everything seen at rest after that, before each clearing.</summary>
    public static CheckOutcome Stopped(DutyFrame duty) =>
        Of(duty) is { IsEmpty: false } all ? Together(all.Select(Stopped)) : NoBlockage();

    /// <summary>Hydraulic pressure released before each clearing.</summary>
    public static CheckOutcome PressureReleased(DutyFrame duty)
    {
        if (Of(duty) is not { IsEmpty: false } all)
        {
            return NoBlockage();
        }

        var sources = duty
            .Sources.Where(source =>
                source.Source.Id.Text.StartsWith(HydraulicPrefix, StringComparison.Ordinal)
            )
            .Select(source => source.Source)
            .ToImmutableArray();
        return !sources.IsEmpty
            ? Together(all.Select(blockage => PressureReleased(blockage, sources)))
            : SourcesKnown.Lacking(duty)
                ?? TimelineOutcome.NotApplicable("There is no hydraulic pressure here.");
    }

    private static CheckOutcome Stopped(Blockage blockage)
    {
        var down = blockage.Before(TimelineEventKind.MachineShutDown).ToImmutableArray();
        // At rest it is seen after it was stopped; where it was not, that is what is lacking first.
        var rest = blockage
            .Before(TimelineEventKind.SeenAtRest)
            .Where(seen => down.IsEmpty || down.Any(stopped => stopped.Moment <= seen.Moment))
            .ToImmutableArray();
        var missing = new[]
        {
            down.IsEmpty ? EventWords.Done(TimelineEventKind.MachineShutDown) : null,
            !rest.IsEmpty ? null
            : down.IsEmpty ? EventWords.Done(TimelineEventKind.SeenAtRest)
            : $"{EventWords.Done(TimelineEventKind.SeenAtRest)} after {EventWords.Done(TimelineEventKind.MachineShutDown)} at {blockage.Duty.Words.Time(down[0])}",
        }.OfType<string>().ToImmutableArray();
        return missing.IsEmpty
            ? TimelineOutcome.Met(
                blockage.Duty.Reading,
                $"The record shows the machine shut down and everything seen at rest{blockage.BeforeWords}.",
                [.. down, .. rest]
            )
            : TimelineOutcome.OfFaults([
                blockage.Missing(
                    TimelineWords.List(missing),
                    "Stop the machine and see everything at rest; a fixed waiting time does not show it."
                ),
            ]);
    }

    private static CheckOutcome PressureReleased(Blockage blockage, ImmutableArray<EnergySource> sources)
    {
        var released = sources.ToDictionary(
            source => source,
            source =>
                blockage
                    .Before(TimelineEventKind.StoredEnergyReleased)
                    .FirstOrDefault(entry => entry.Event.SpeaksOf(source.Id))
        );
        var missing = sources.Where(source => released[source] is null).ToImmutableArray();
        return missing.IsEmpty
            ? TimelineOutcome.Met(
                blockage.Duty.Reading,
                $"The record shows the stored energy released for {TimelineWords.Named(sources)}{blockage.BeforeWords}.",
                [.. released.Values.OfType<OrderedEvent>().Distinct()]
            )
            : TimelineOutcome.OfFaults([
                blockage.Missing(
                    $"the stored energy released for {TimelineWords.Named(missing)}",
                    "Release the pressure first: oil trapped by the jam turns the reel when it frees."
                ),
            ]);
    }

    /// <summary>The worst of several clearings, the others told beside it; where none is at fault, the last, resting on all.</summary>
    private static CheckOutcome Together(IEnumerable<CheckOutcome> each)
    {
        var all = each.OrderBy(outcome =>
                outcome.Verdict switch
                {
                    Verdict.NotMet => 0,
                    Verdict.Unproven => 1,
                    _ => 2,
                }
            )
            .ToImmutableArray();
        var faults = all.TakeWhile(outcome => outcome.Verdict is Verdict.NotMet or Verdict.Unproven).ToList();
        var (told, beside) = faults.Count > 0 ? (faults[0], faults.Skip(1)) : (all[^1], []);
        return told with
        {
            Evidence =
            [
                .. (faults.Count > 0 ? faults : [.. all])
                    .SelectMany(outcome => outcome.Evidence)
                    .Distinct(StringComparer.Ordinal)
                    .Order(StringComparer.Ordinal),
            ],
            Notices =
            [
                .. told
                    .Notices.Concat(beside.Select(outcome => outcome.Statement))
                    .Distinct(StringComparer.Ordinal),
            ],
        };
    }

    /// <summary>By a tool, never by hand.</summary>
    public static CheckOutcome ByTool(DutyFrame duty) =>
        Of(duty).IsEmpty ? NoBlockage() : Clearing.ByTool(duty.Reading);

    /// <summary>Looked over after it, before the machine is started or handed back.</summary>
    public static CheckOutcome CheckedAfter(DutyFrame duty) =>
        Of(duty) is { IsEmpty: false } all ? Together(all.Select(CheckedAfter)) : NoBlockage();

    private static CheckOutcome CheckedAfter(Blockage blockage)
    {
        var duty = blockage.Duty;
        if (blockage.Last is not { } cleared)
        {
            return TimelineOutcome.Of(
                Verdict.Unproven,
                duty.Reading.IsOpen ? FindingReason.InProgress : FindingReason.StepMissing,
                "The record does not show when the blockage was cleared, so not a look over the unit after it.",
                [],
                "Enter when the blockage was cleared."
            );
        }

        const string act = "Look the unit over for damage and check its contact before the machine goes out.";
        var what = EventWords.Done(TimelineEventKind.AreaInspected);
        var limit = duty
            .Reading.Of(TimelineEventKind.MachineStarted, TimelineEventKind.HandedBack)
            .FirstOrDefault(entry => entry.Place() > cleared.Place());
        var looked = duty
            .Reading.Of(TimelineEventKind.AreaInspected)
            .FirstOrDefault(entry =>
                entry.Place() > cleared.Place() && (limit is null || entry.Place() < limit.Place())
            );
        return looked switch
        {
            not null => TimelineOutcome.Met(
                duty.Reading,
                $"The record shows {what} {duty.Words.AtBy(looked)}, after the blockage was cleared at {duty.Words.Time(cleared)}.",
                [looked]
            ),
            null when limit is null && duty.Reading.IsOpen => AffectedPeople.NotYet(
                $"{what}, after the blockage was cleared at {duty.Words.Time(cleared)}",
                act
            ),
            _ => TimelineOutcome.Of(
                Verdict.NotMet,
                FindingReason.StepMissing,
                $"The record does not show {what} after the blockage was cleared at {duty.Words.Time(cleared)}{(limit is null ? string.Empty : $" and before {EventWords.Done(limit.Event.Kind)} at {duty.Words.Time(limit)}")}.",
                new[] { cleared, limit }.OfType<OrderedEvent>().Evidence(),
                act
            ),
        };
    }

    /// <summary>What was cleared between two runs of the machine, each time; where no clearing is shown, the first work.</summary>
    private static ImmutableArray<Blockage> Of(DutyFrame duty)
    {
        var cleared = duty
            .Reading.Of(TimelineEventKind.BlockageClearedWithTool, TimelineEventKind.BlockageClearedByHand)
            .GroupBy(entry => duty.Reading.Energisings.Count(start => start.Place() < entry.Place()))
            .Select(together => new Blockage(duty, together.First(), together.Last()))
            .ToImmutableArray();
        return !cleared.IsEmpty ? cleared
            : duty.Record.Tasks.Contains(ServiceTask.ClearBlockage)
                ? [new(duty, duty.Reading.FirstWork?.Start, null)]
            : [];
    }

    private static CheckOutcome NoBlockage() =>
        TimelineOutcome.NotApplicable("The record shows no blockage cleared.");

    /// <param name="Duty">The job.</param>
    /// <param name="First">When hands first went to it; null: not yet, or not shown.</param>
    /// <param name="Last">When it was last cleared; null: not shown.</param>
    private sealed record Blockage(DutyFrame Duty, OrderedEvent? First, OrderedEvent? Last)
    {
        public string BeforeWords =>
            First is null
                ? string.Empty
                : $", before {EventWords.Done(First.Event.Kind)} at {Duty.Words.Time(First)}";

        /// <summary>Entries of a kind between the last run of the machine and the hands.</summary>
        public IEnumerable<OrderedEvent> Before(TimelineEventKind kind)
        {
            var ran = Duty.Reading.Energisings.LastOrDefault(start =>
                First is null || start.Place() < First.Place()
            );
            return Duty
                .Reading.Of(kind)
                .Where(entry =>
                    (First is null || entry.Place() < First.Place())
                    && (ran is null || (First is null && !Duty.Reading.IsOpen) || entry.Place() > ran.Place())
                );
        }

        public TimelineFault Missing(string what, string act) =>
            First is null && Duty.Reading.IsOpen
                ? TimelineFault.NotYet(what, act)
                : new(
                    Verdict.NotMet,
                    FindingReason.StepMissing,
                    First is null
                        ? $"The record does not show {what} before the blockage was cleared."
                        : $"The record does not show {what} before {EventWords.Done(First.Event.Kind)} {Duty.Words.AtBy(First)}.",
                    First is null ? [] : [First],
                    act
                );
    }
}
