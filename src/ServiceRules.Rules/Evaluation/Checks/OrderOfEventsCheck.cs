using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// Steps come in the order asked, where they are present: before the first hands-on work after every start of the
/// machine, source by source; and after the last hands-on work.
/// </summary>
internal static class OrderOfEventsCheck
{
    public static CheckOutcome Evaluate(Check.OrderOfEvents check, Rule rule, JobFrame frame, UnitFrame? unit)
    {
        var reading = TimelineReading.Of(frame);
        var words = reading.Words;
        var before = check.Order.Where(kind => !IsAfterWork(kind)).ToImmutableArray();
        var after = check.Order.Where(IsAfterWork).ToImmutableArray();
        var stretches = StretchesBeforeWork(reading, before)
            .Concat(StretchAfterWork(reading, after))
            .ToList();
        var restsOn = stretches.SelectMany(stretch => stretch.Entries).ToList();
        if (restsOn.Select(entry => entry.Event.Kind).Distinct().Count() < 2)
        {
            return TooFewSteps(check, reading);
        }

        var faults = stretches.SelectMany(stretch => FaultsIn(stretch, words)).ToList();
        return faults.Count > 0
            ? TimelineOutcome.OfFaults(faults)
            : TimelineOutcome.Met(reading, "The record shows the steps in their order.", restsOn);
    }

    private static CheckOutcome TooFewSteps(Check.OrderOfEvents check, TimelineReading reading) =>
        TimelineOutcome.Of(
            Verdict.Unproven,
            reading.IsOpen ? FindingReason.InProgress : FindingReason.StepMissing,
            $"The record shows too few of these steps to tell their order: {TimelineWords.List(check.Order.Select(EventWords.Done))}.",
            [],
            "Enter the steps as they are done."
        );

    private static IEnumerable<TimelineFault> FaultsIn(OrderedStretch stretch, TimelineWords words)
    {
        for (var first = 0; first < stretch.Order.Length; first++)
        {
            for (var then = first + 1; then < stretch.Order.Length; then++)
            {
                foreach (var source in stretch.Sources)
                {
                    if (Inversion(stretch, stretch.Order[first], stretch.Order[then], source) is var (a, b))
                    {
                        yield return Fault(stretch, a, b, source, words);
                    }
                }
            }
        }
    }

    private static (OrderedEvent First, OrderedEvent Then)? Inversion(
        OrderedStretch stretch,
        TimelineEventKind first,
        TimelineEventKind then,
        Id<EnergySource>? source
    )
    {
        var isWork = then == TimelineEventKind.WorkStarted;
        var firsts = stretch.Of(first, source, isWork);
        var thens = stretch.Of(then, source, isWork);
        if (firsts.Count == 0 || thens.Count == 0)
        {
            return null;
        }

        // What is relied on is the last verification, after the last release; other steps may be repeated later.
        var isRelease =
            first == TimelineEventKind.StoredEnergyReleased && then == TimelineEventKind.IsolationVerified;
        var a = isRelease ? firsts[^1] : firsts[0];
        var b = stretch.IsBeforeWork && !isWork ? thens[^1] : thens[0];
        return a.Place() > b.Place() ? (a, b) : null;
    }

    private static TimelineFault Fault(
        OrderedStretch stretch,
        OrderedEvent a,
        OrderedEvent b,
        Id<EnergySource>? source,
        TimelineWords words
    )
    {
        var text =
            $"The record shows {EventWords.Done(b.Event.Kind)} at {words.Time(b)}, before {EventWords.Done(a.Event.Kind)} at {words.Time(a)}"
            + (source is { } id && IsSourced(a, b) ? $" ({stretch.Named(id)})." : ".");
        return stretch.CanStillBeMended
            ? new(
                Verdict.Unproven,
                FindingReason.InProgress,
                text,
                [b, a],
                $"Repeat it in order before touching the unit: {EventWords.Done(b.Event.Kind)}."
            )
            : new(
                Verdict.NotMet,
                FindingReason.WrongOrder,
                text,
                [b, a],
                "Go through the order of the steps with whoever did the work."
            );
    }

    private static bool IsSourced(OrderedEvent a, OrderedEvent b) =>
        a.Event.Source is SourceReference.One || b.Event.Source is SourceReference.One;

    private static IEnumerable<OrderedStretch> StretchesBeforeWork(
        TimelineReading reading,
        ImmutableArray<TimelineEventKind> order
    )
    {
        ImmutableArray<TimelinePlace> bounds = [TimelinePlace.Beginning, .. reading.Energisings.Places()];
        for (var index = 0; index < bounds.Length && order.Length > 0; index++)
        {
            var cycle = new TimelineInterval(
                bounds[index],
                index + 1 < bounds.Length ? bounds[index + 1] : null
            );
            var work = reading.Works.FirstOrDefault(work => cycle.Contains(work.Start.Place()));
            var isLast = index + 1 == bounds.Length;
            if (work is null && !(isLast && reading.IsOpen))
            {
                continue;
            }

            yield return new(
                order,
                [
                    .. reading.Events.Where(entry =>
                        cycle.Contains(entry.Place())
                        && order.Contains(entry.Event.Kind)
                        && (work is null || entry.Place() <= work.Start.Place() || IsWorkLast(order))
                    ),
                ],
                reading.Frame,
                work?.Start
            )
            {
                IsBeforeWork = true,
            };
        }
    }

    private static bool IsWorkLast(ImmutableArray<TimelineEventKind> order) =>
        order[^1] == TimelineEventKind.WorkStarted;

    private static IEnumerable<OrderedStretch> StretchAfterWork(
        TimelineReading reading,
        ImmutableArray<TimelineEventKind> order
    )
    {
        if (order.Length > 0 && reading.EndOfWork() is { } end)
        {
            yield return new(
                order,
                [
                    .. reading.Events.Where(entry =>
                        entry.Place() >= end.Place() && order.Contains(entry.Event.Kind)
                    ),
                ],
                reading.Frame,
                end
            );
        }
    }

    private static bool IsAfterWork(TimelineEventKind kind) =>
        kind
            is TimelineEventKind.WorkStopped
                or TimelineEventKind.AreaInspected
                or TimelineEventKind.GuardsRefitted
                or TimelineEventKind.CutOutsProved
                or TimelineEventKind.PeopleClearChecked
                or TimelineEventKind.ExposureChecked
                or TimelineEventKind.LockRemoved
                or TimelineEventKind.TagRemoved
                or TimelineEventKind.RemovalNotified
                or TimelineEventKind.MachineStarted
                or TimelineEventKind.HandedBack;
}
