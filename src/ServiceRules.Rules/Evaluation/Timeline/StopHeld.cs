using System.Collections.Immutable;
using System.Text.RegularExpressions;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>Who is said to stand at the stop while the reel runs, as a second person.</summary>
public static partial class StopHeld
{
    /// <summary>Whether an entry of measures says that somebody does.</summary>
    public static bool IsSaid(TimelineEvent entry)
    {
        ArgumentNullException.ThrowIfNull(entry);
        return entry.Kind == TimelineEventKind.AlternativeMeasuresRecorded
            && entry.Measures.Contains(ProtectiveMeasure.SecondPersonAtStopControl);
    }

    /// <summary>
    /// Whom it names: as the others of the entry; else those of the record's people whose names stand in its words of how,
    /// where these deny nothing. Empty: nobody.
    /// </summary>
    public static ImmutableArray<Id<Participant>> Named(ServiceRecord record, TimelineEvent entry)
    {
        ArgumentNullException.ThrowIfNull(record);
        ArgumentNullException.ThrowIfNull(entry);
        return !entry.Others.IsEmpty ? [.. entry.Others.Distinct()]
            : entry.Method is not { } words ? []
            :
            [
                .. record
                    .People.Select(person => person.Id)
                    .Distinct()
                    .Where(id =>
                        Parts(words).Any(part => Names(part, id.Text))
                        && !Parts(words).Any(part => Names(part, id.Text) && Denial().IsMatch(part))
                    ),
            ];
    }

    /// <summary>Whether its words of how say of the stop, or of a person, that it was not so.</summary>
    internal static bool IsDenied(TimelineEvent entry) =>
        entry.Method is { } words
        && Parts(words).Any(part => OfTheStop().IsMatch(part) && Denial().IsMatch(part));

    // What is said of one thing denies nothing of the next: `tech-02 at the stop, no gloves`.
    private static string[] Parts(string words) => words.Split([',', ';', '.']);

    /// <summary>
    /// People whose only part is to help, who stand at the stop of a run and of whom no hands are shown: whom an entry
    /// names, or the only one there is. Their hands are not in.
    /// </summary>
    /// <param name="record">The record.</param>
    /// <param name="events">Its entries.</param>
    /// <param name="shown">Everybody whose hands are shown.</param>
    /// <param name="isOpen">The job goes on, and the run may be still to come.</param>
    internal static ImmutableArray<Id<Participant>> Assistants(
        ServiceRecord record,
        ImmutableArray<OrderedEvent> events,
        ImmutableArray<Id<Participant>> shown,
        bool isOpen
    )
    {
        var said = events
            .Where(entry =>
                IsSaid(entry.Event)
                && (isOpen || events.Any(run => run.Place() > entry.Place() && IsOfARun(run.Event.Kind)))
            )
            .ToImmutableArray();
        if (said.IsEmpty)
        {
            return [];
        }

        var idle = record
            .People.GroupBy(person => person.Id)
            .Where(one => one.All(part => part.Role == JobRole.Assists) && !shown.Contains(one.Key))
            .Select(one => one.Key)
            .ToImmutableArray();
        return
        [
            .. idle.Where(person =>
                said.Any(entry =>
                    Named(record, entry.Event) is { IsEmpty: false } named
                        ? named.Contains(person)
                        : idle.Length == 1 && !IsDenied(entry.Event)
                )
            ),
        ];
    }

    private static bool IsOfARun(TimelineEventKind kind) =>
        kind is TimelineEventKind.TestEnergised or TimelineEventKind.EnergisedTaskPerformed;

    // A name counts as a whole: tech-1 is not named by tech-12.
    private static bool Names(string words, string id)
    {
        for (
            var at = words.IndexOf(id, StringComparison.Ordinal);
            at >= 0;
            at = words.IndexOf(id, at + 1, StringComparison.Ordinal)
        )
        {
            if (
                (at == 0 || !IsOfAName(words[at - 1]))
                && (at + id.Length == words.Length || !IsOfAName(words[at + id.Length]))
            )
            {
                return true;
            }
        }

        return false;
    }

    private static bool IsOfAName(char letter) => char.IsLetterOrDigit(letter) || letter is '-' or '_';

    [GeneratedRegex(
        @"\b(?:no|not|nobody|none|never|without|away|absent|gone|elsewhere|cannot)\b|\bleft\b(?!\s+(?:side|hand|of)\b)|n't\b",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant
    )]
    private static partial Regex Denial();

    [GeneratedRegex(
        @"\b(?:stop|second|somebody|someone|person|helper)\b",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant
    )]
    private static partial Regex OfTheStop();
}
