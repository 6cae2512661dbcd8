using System.Text.RegularExpressions;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>
/// With what a blockage was cleared: as the entry says, unless it says of how that it was done by hand. Free words are not
/// read further than that: where hands are spoken of in some other way, a person looks at them.
/// </summary>
internal static partial class Clearing
{
    private const string Act =
        "Clear a blockage with a tool only: trapped pressure can turn the reel when it frees.";

    /// <summary>By a tool, never by hand, of all the entries of a record.</summary>
    public static CheckOutcome ByTool(TimelineReading reading)
    {
        var words = reading.Words;
        var all = reading.Of(
            TimelineEventKind.BlockageClearedWithTool,
            TimelineEventKind.BlockageClearedByHand
        );
        var faults = all.Select(entry => Fault(entry, words)).OfType<TimelineFault>().ToList();
        return faults.Count > 0 ? TimelineOutcome.OfFaults(faults)
            : all.IsEmpty
                ? TimelineOutcome.Of(
                    Verdict.Unproven,
                    reading.IsOpen ? FindingReason.InProgress : FindingReason.StepMissing,
                    "The record does not show how the blockage was cleared.",
                    [],
                    "Clear a blockage with a tool only, and enter it."
                )
            : TimelineOutcome.Met(
                reading,
                $"The record shows the blockage cleared with a tool {words.AtBy(all[0])}.",
                all
            );
    }

    /// <summary>Entered as done by hand, or said to be in its own words and nothing else.</summary>
    public static bool IsByHand(OrderedEvent entry) =>
        entry.Event.Kind == TimelineEventKind.BlockageClearedByHand
        || (
            entry.Event.Kind == TimelineEventKind.BlockageClearedWithTool
            && entry.Event.Method is { } method
            && ByHandAlone().IsMatch(method)
        );

    private static TimelineFault? Fault(OrderedEvent entry, TimelineWords words) =>
        entry.Event.Kind == TimelineEventKind.BlockageClearedByHand
            ? new(
                Verdict.NotMet,
                FindingReason.ProcedureNotFollowed,
                $"The record shows the blockage cleared by hand {words.AtBy(entry)}.",
                [entry],
                Act
            )
        : entry.Event.Method is not { } method || !SpeaksOfHands().IsMatch(method) ? null
        : IsByHand(entry)
            ? new(
                Verdict.NotMet,
                FindingReason.ProcedureNotFollowed,
                $"The record shows the blockage cleared {words.AtBy(entry)}, entered as with a tool, and of how it says `{method}`.",
                [entry],
                Act
            )
        : new(
            Verdict.Unproven,
            FindingReason.NotCredible,
            $"The record shows the blockage cleared {words.AtBy(entry)}, entered as with a tool, and speaks of hands in how: `{method}`.",
            [entry],
            "Have whoever cleared it say with what."
        );

    // Each run of what is no letter belongs to the word before it: no text makes this look twice at one.
    [GeneratedRegex(
        @"^\W*(?:(?:cleared|pulled|taken|picked|freed)\W+)?(?:out\W+)?(?:(?:by|with|using)\W+)?(?:(?:my|his|her|their|the|bare|gloved)\W+)?(?:hands?|fingers?)\W*$",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant
    )]
    private static partial Regex ByHandAlone();

    [GeneratedRegex(
        @"(?<!\b(?:no|not by|never by|not with|without|keeps|kept|keeping)\W+)\b(?:hands?|fingers?)\b(?!\W+(?:tools?|hooks?|rakes?|brush(?:es)?|scrapers?|clear|kept|well)\b)",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant
    )]
    private static partial Regex SpeaksOfHands();
}
