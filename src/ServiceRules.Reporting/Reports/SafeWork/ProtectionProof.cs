using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>What of the work that entries show as protected they do not prove.</summary>
internal static class ProtectionProof
{
    /// <summary>Steps without which nobody is protected.</summary>
    private static readonly ImmutableArray<TimelineEventKind> Steps =
    [
        TimelineEventKind.IsolatorOperated,
        TimelineEventKind.PlugRemoved,
        TimelineEventKind.PlugControlConfirmed,
        TimelineEventKind.LockApplied,
        TimelineEventKind.TagApplied,
        TimelineEventKind.StoredEnergyReleased,
        TimelineEventKind.IsolationVerified,
    ];

    /// <summary>Work that itself, or a step before its end, rests on entries that are not credible.</summary>
    public static IntervalSet NotCredible(SafeWorkView view, Id<Participant> person)
    {
        var weak = view.Events.Where(one => view.Reading.Weakened.Contains(view.PointerOf(one))).ToList();
        return IntervalSet.Of(
            view.Reading.Works.Where(work => work.Person == person)
                .Select(work => work.Interval)
                .Where(work => weak.Exists(one => BearsOn(view, one, work)))
        );
    }

    /// <summary>Whether a moment itself, or a step before it without which nobody is protected, rests on entries that are not credible.</summary>
    public static bool IsWeak(SafeWorkView view, TimelinePlace place)
    {
        var number = view.NumberAt(place);
        return view
            .Events.Take(number)
            .Any(one =>
                (one.Number == number || Steps.Contains(one.Event.Kind))
                && view.Reading.Weakened.Contains(view.PointerOf(one))
            );
    }

    /// <summary>The finding that leaves open whether this person's work was protected; null: there is none.</summary>
    /// <param name="view">The job.</param>
    /// <param name="person">Who.</param>
    /// <param name="steps">Their steps outside the work: what is said of those leaves nothing open of the work.</param>
    public static MarkedFinding? LeftOpen(
        SafeWorkView view,
        Id<Participant> person,
        ImmutableArray<HandStep> steps
    ) =>
        view.Marked.FirstOrDefault(one =>
            HandsFinding.LeavesOpen(one.Told) && Concerns(view, one.Told.Finding, person, steps)
        );

    private static bool BearsOn(SafeWorkView view, NumberedEvent one, TimelineInterval work)
    {
        var begins = view.NumberAt(work.From);
        var ends = work.Until is { } until ? view.NumberAt(until) : int.MaxValue;
        return one.Number == begins
            || one.Number == ends
            || (one.Number < ends && Steps.Contains(one.Event.Kind));
    }

    /// <summary>
    /// A sentence that names people is about them; one that names a device, about whoever put it on; any other about
    /// whoever the entries are of, where a start or an end of work is its own person's and every other entry everybody's.
    /// </summary>
    private static bool Concerns(
        SafeWorkView view,
        Finding finding,
        Id<Participant> person,
        ImmutableArray<HandStep> steps
    )
    {
        var logged = finding.Evidence.Select(view.BenchEntryOf).OfType<BenchEntry>().ToList();
        if (logged.Count == finding.Evidence.Length && logged.TrueForAll(entry => entry.By is not null))
        {
            return logged.Exists(entry => entry.By == person);
        }

        var names = view
            .Reading.HandsIn.Concat(view.Job.Record.People.Select(one => one.Id))
            .Concat(view.Events.Select(one => one.Event.Actor))
            .Select(one => one.Text)
            .ToHashSet(StringComparer.Ordinal);
        return finding
            .Notices.Prepend(finding.Statement)
            .Where(sentence => !steps.Any(step => IsOf(sentence, step)))
            .Any(sentence =>
            {
                var words = Words(sentence);
                if (names.Overlaps(words))
                {
                    return words.Contains(person.Text);
                }
                var hung = view
                    .Reading.Devices.Where(device => words.Contains(device.Device.Text))
                    .Select(device => device.Person)
                    .ToList();
                return hung.Count > 0 ? hung.Contains(person) : IsOfEntries(view, finding, person);
            });
    }

    private static bool IsOf(string sentence, HandStep step) =>
        sentence.StartsWith($"The record shows {step.Done} ", StringComparison.Ordinal);

    private static HashSet<string> Words(string sentence) =>
        sentence
            .Split([' ', ',', ';', ':', '(', ')'], StringSplitOptions.RemoveEmptyEntries)
            .Select(word => word.TrimEnd('.'))
            .Select(word => word.EndsWith("'s", StringComparison.Ordinal) ? word[..^"'s".Length] : word)
            .ToHashSet(StringComparer.Ordinal);

    private static bool IsOfEntries(SafeWorkView view, Finding finding, Id<Participant> person)
    {
        var events = finding
            .Evidence.Select(view.NumberOf)
            .OfType<int>()
            .Select(number => view.Events[number - 1].Event)
            .ToList();
        return events.Count == 0
            || events.Exists(one =>
                one.Actor == person
                || one.Kind is not (TimelineEventKind.WorkStarted or TimelineEventKind.WorkStopped)
            );
    }
}
