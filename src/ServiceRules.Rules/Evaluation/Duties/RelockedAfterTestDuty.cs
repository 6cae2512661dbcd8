using System.Collections.Immutable;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// Between the end of a run in the middle of the job, for a test or however it was started, and the next hands-on work,
/// everything again: every source that was opened isolated and locked, every stored energy released, every source verified.
/// </summary>
internal static class RelockedAfterTestDuty
{
    private const string Act =
        "After a test run: isolate, lock, release and verify again before hands go in.";

    public static CheckOutcome Judge(DutyFrame duty)
    {
        var runs = MachineRun.OfJob(duty);
        if (runs.IsEmpty)
        {
            return TimelineOutcome.NotApplicable(
                "The record shows no test run, nor any other between two stretches of work."
            );
        }

        if (SourcesKnown.Lacking(duty) is { } lacking)
        {
            return lacking;
        }

        var stretches = Stretches(duty, runs).ToImmutableArray();
        if (stretches.IsEmpty)
        {
            return TimelineOutcome.NotApplicable(
                "The record shows no hands-on work after a run of the machine."
            );
        }

        var faults = stretches.SelectMany(stretch => stretch.Faults()).ToList();
        return faults.Count > 0
            ? TimelineOutcome.OfFaults(faults)
            : TimelineOutcome.Met(
                duty.Reading,
                $"The record shows everything isolated, locked, released and verified again after {TimelineWords.List(stretches.Select(stretch => stretch.Run.Named))}.",
                [.. stretches.SelectMany(stretch => stretch.Steps).Distinct()]
            );
    }

    private static IEnumerable<Stretch> Stretches(DutyFrame duty, ImmutableArray<MachineRun> runs)
    {
        for (var index = 0; index < runs.Length; index++)
        {
            if (runs[index].End is not { } end)
            {
                continue;
            }

            var next = duty.Reading.Events.FirstOrDefault(entry =>
                entry.Place() > end.Place()
                    && entry.Event.Kind
                        is TimelineEventKind.WorkStarted
                            or TimelineEventKind.TestEnergised
                            or TimelineEventKind.MachineStarted
                || (entry.Place() > end.Place() && duty.Reading.StopsWithoutStart.Contains(entry))
            );
            var isWork = next?.Event.Kind is TimelineEventKind.WorkStarted or TimelineEventKind.WorkStopped;
            var isHandedBack = duty
                .Reading.Of(TimelineEventKind.HandedBack)
                .Any(back => back.Place() > end.Place());
            if (isWork || (next is null && duty.Reading.IsOpen && !isHandedBack && !runs[index].IsPlain))
            {
                yield return new(runs[index], end, isWork ? next : null);
            }
        }
    }

    private sealed record Stretch(MachineRun Run, OrderedEvent End, OrderedEvent? Work)
    {
        private DutyFrame Duty => Run.Duty;

        public IEnumerable<OrderedEvent> Steps =>
            Duty.Reading.Events.Where(entry =>
                IsWithin(entry)
                && entry.Event.Kind
                    is TimelineEventKind.IsolatorOperated
                        or TimelineEventKind.PlugRemoved
                        or TimelineEventKind.PlugControlConfirmed
                        or TimelineEventKind.LockApplied
                        or TimelineEventKind.TagApplied
                        or TimelineEventKind.StoredEnergyReleased
                        or TimelineEventKind.IsolationVerified
            );

        public IEnumerable<TimelineFault> Faults()
        {
            var sources = Duty.SourcesAt(Work?.Place() ?? End.Place())
                .Select(source => source.Source)
                .ToImmutableArray();
            var opened = sources.Where(IsOpened).ToImmutableArray();
            var stored = sources.Where(source => source.Stored).ToImmutableArray();
            var lacking = new[]
            {
                Lacking("the isolator turned off again", opened, Off),
                Lacking("a lock or tag put on again", opened, On),
                Lacking("the stored energy released again", stored, Released),
                Lacking($"the isolation verified again{Denied(sources)}", sources, Verified),
            }
                .OfType<string>()
                .ToImmutableArray();
            var words = Duty.Words;
            if (lacking.IsEmpty)
            {
                if (Work is { Event.Kind: TimelineEventKind.WorkStopped } stop)
                {
                    yield return new(
                        Verdict.Unproven,
                        FindingReason.StepMissing,
                        $"The record shows {stop.Event.Actor} at work until {words.Time(stop)} after {Run.Named}, and does not show that it started only after everything was made safe again.",
                        [End, stop],
                        "Enter when hands-on work started, as a late entry."
                    );
                }

                var unknown = sources.Where(source => !VerifiedBy(source, Authority.Shown)).ToList();
                if (unknown.Count > 0)
                {
                    var by = Proofs(unknown).ToImmutableArray();
                    yield return new(
                        Verdict.Unproven,
                        FindingReason.NotRegistered,
                        $"After {Run.Named} the record shows {TimelineWords.Named(unknown)} verified again {TimelineWords.List(by.Select(words.AtBy))}, {Authorities.Against(Authority.NotKnown)}.",
                        by,
                        "Enter the person in the register."
                    );
                }

                yield break;
            }

            yield return Work is null
                ? TimelineFault.NotYet(
                    string.Join("; ", lacking),
                    Act,
                    [End],
                    by: "Do it before hands go in again",
                    of: $"since the {Run.Word} ended at {words.Time(End)}"
                )
                : new(
                    Verdict.NotMet,
                    FindingReason.Unprotected,
                    $"The record does not show {string.Join("; ", lacking)} between the end of the {Run.Word} at {words.Time(End)} and {EventWords.Done(Work.Event.Kind)} {words.AtBy(Work)}.",
                    [End, Work],
                    Act
                );
        }

        private static string? Lacking(
            string what,
            ImmutableArray<EnergySource> sources,
            Func<EnergySource, bool> isShown
        )
        {
            var missing = sources.Where(source => !isShown(source)).ToList();
            return missing.Count == 0 ? null : $"{what} for {TimelineWords.Named(missing)}";
        }

        private bool IsWithin(OrderedEvent entry) =>
            entry.Place() > End.Place() && (Work is null || entry.Place() < Work.Place());

        // A source on whose isolator a lock stayed all through the test was not opened.
        private bool IsOpened(EnergySource source) =>
            source.Isolator is not null
            && !Duty.Reading.Devices.Any(device =>
                device.IsOn(source.Id)
                && device.HoldsOff
                && device.Applied.Place() < Run.Start.Place()
                && (device.Removed is not { } removed || (Work is not null && removed.Place() > Work.Place()))
            );

        private bool Off(EnergySource source) => SourceReading.Isolations(Duty.Reading, source).Any(IsWithin);

        private bool On(EnergySource source) => DevicesOn.Of(Duty, source).Any(IsWithin);

        private bool Released(EnergySource source) =>
            SourceReading.Releases(Duty.Reading, source).Any(IsWithin);

        // By somebody whom the register does not have it is not shown, and not shown to be missed.
        private bool Verified(EnergySource source) =>
            VerifiedBy(source, Authority.Shown) || VerifiedBy(source, Authority.NotKnown);

        private bool VerifiedBy(EnergySource source, Authority authority) =>
            SourceReading
                .Verifications(Duty.Reading, source)
                .Any(entry => IsWithin(entry) && Authorities.Of(Duty, entry.Event.Actor) == authority);

        private IEnumerable<OrderedEvent> Proofs(IEnumerable<EnergySource> sources) =>
            Duty
                .Reading.Of(TimelineEventKind.IsolationVerified)
                .Where(entry => IsWithin(entry) && sources.Any(source => entry.Event.SpeaksOf(source.Id)));

        private string Denied(ImmutableArray<EnergySource> sources) =>
            Proofs(sources.Where(source => !Verified(source))).ToList() is [.., var last]
                ? $" by somebody authorised (at {Duty.Words.Time(last)} by {last.Event.Actor}, {Authorities.Against(Authority.Denied)})"
                : string.Empty;
    }
}
