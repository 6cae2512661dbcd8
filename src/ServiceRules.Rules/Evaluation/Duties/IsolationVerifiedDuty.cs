using System.Collections.Immutable;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// Every source was proven dead by an authorised person: after its first lock or tag went on and after its stored energy
/// was last released, with the machine at a stand, with no pressure read above its limit, at an earlier time than hands went in, and with nothing undone between.
/// In one printed minute, seconds not noted, the order of the entries decides, and is told.
/// </summary>
internal static class IsolationVerifiedDuty
{
    public static CheckOutcome Judge(DutyFrame duty)
    {
        if (SourcesKnown.Lacking(duty) is { } lacking)
        {
            return lacking;
        }

        var leadUp = LeadUp.ToFirstWork(duty);
        if (leadUp.Sources.IsEmpty)
        {
            return TimelineOutcome.NotApplicable("There is no energy source here.");
        }

        var steps = leadUp.Sources.Select(source => Step(leadUp, source.Source)).ToImmutableArray();
        var outcome = SourceStep.Judge(leadUp, steps, "the isolation verified");
        return outcome.Verdict == Verdict.Met && ByOrderAlone(leadUp, steps) is { } notice
            ? outcome with
            {
                Notices = [.. outcome.Notices, notice],
            }
            : outcome;
    }

    private static string? ByOrderAlone(LeadUp leadUp, ImmutableArray<SourceStep> steps)
    {
        var together = steps
            .Where(step => step.Shown.All(entry => IsInTheMinute(leadUp, entry)))
            .Select(step => step.Source)
            .ToImmutableArray();
        return together.IsEmpty
            ? null
            : $"{TimelineWords.Named(together)}: verified in the very minute in which work started, seconds not noted; that it came first is shown by the order of the entries alone.";
    }

    private static bool IsInTheMinute(LeadUp leadUp, OrderedEvent entry) =>
        leadUp.Work is { } work && entry.Place().IsInTheMinuteOf(work.Start.Place());

    private static SourceStep Step(LeadUp leadUp, EnergySource source)
    {
        var duty = leadUp.Duty;
        var on = DevicesOn.LocksAndTags(duty, source).FirstOrDefault(leadUp.Contains);
        var released = duty
            .Reading.Of(TimelineEventKind.StoredEnergyReleased)
            .LastOrDefault(entry => entry.Event.SpeaksOf(source.Id) && leadUp.Contains(entry));
        var undone = leadUp.Work is not null || leadUp.CanStillBeDone ? Undone(leadUp, source) : null;
        var before = leadUp
            .Of(TimelineEventKind.IsolationVerified)
            .Where(entry => entry.Event.SpeaksOf(source.Id))
            .ToImmutableArray();
        var high = RecheckReadings.LastAbove(leadUp, source);
        var good = before
            .Where(entry => Against(entry) is null && !SaidOtherwise.By(entry.Event))
            .ToImmutableArray();
        var live = before.LastOrDefault(entry => Against(entry) is null && SaidOtherwise.By(entry.Event));
        return good.IsEmpty && live is not null
                ? new(
                    source,
                    [],
                    null,
                    $" ({duty.Words.Time(live)}: {SaidOtherwise.Told(live)})",
                    [live],
                    IsUntold: true,
                    "Prove it dead again before hands go in, and enter what came of it."
                )
            : good.IsEmpty && before is [.., var last]
                ? new(source, [], null, $" ({duty.Words.Time(last)}: {Against(last)})", [last])
            : new(
                source,
                good,
                leadUp.FirstAfter(SourceReading.Verifications(duty.Reading, source)),
                string.Empty,
                []
            );

        string? Against(OrderedEvent entry) =>
            leadUp.Work is { } work && entry.Moment >= work.Start.Moment && !IsInTheMinute(leadUp, entry)
                ? Besides(entry) ?? "at the very time at which work started"
                : Besides(entry);

        string? Besides(OrderedEvent entry) =>
            RunThen.At(duty.Reading, entry) is { } ran
                ? $"while the machine ran, from {EventWords.Done(ran.Event.Kind)} at {duty.Words.Time(ran)} on"
            : on is not null && entry.Place() < on.Place()
                ? $"before a lock or tag was on at {duty.Words.Time(on)}"
            : released is not null && entry.Place() < released.Place()
                ? $"before its stored energy was released at {duty.Words.Time(released)}"
            : SourceReading.IsAboveLimit(source, entry.Event) ? RecheckReadings.Above(source, entry)
            : high is not null && entry.Place() < high.Place()
                ? $"before it was {RecheckReadings.Above(source, high)}, at {duty.Words.Time(high)}"
            : undone is not null && entry.Place() < undone.Place()
                ? $"before {EventWords.Done(undone.Event)} at {duty.Words.Time(undone)}"
            : Authorities.Of(duty, entry.Event.Actor) switch
            {
                Authority.Shown => null,
                var other => $"by {entry.Event.Actor}, {Authorities.Against(other)}",
            };
    }

    // The last lock or tag coming off, or the isolator turned on: what was proven before is not so any more.
    private static OrderedEvent? Undone(LeadUp leadUp, EnergySource source)
    {
        var reading = leadUp.Duty.Reading;
        var held = SourceReading.Of(reading, source).Held;
        return reading
            .Events.Where(entry => leadUp.Contains(entry) && held.Ends.Contains(entry.Place()))
            .Concat(SourceReading.PutOn(reading, source).Where(leadUp.Contains))
            .MaxBy(entry => entry.Place());
    }
}
