using System.Collections.Immutable;
using System.Text.RegularExpressions;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>
/// With what a blockage was cleared: as the entry says, unless it says of how that it was done by hand. Free words of how
/// must name a tool that keeps hands out, by the procedure or by common practice, or say that hands stayed out; of others a
/// person judges. With the machine locked and proven dead for whoever clears it any tool of the trade does. A measure named in the entry, a tool that keeps hands away or a long-handled brush, needs no words.
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
        var tools = reading.Frame.Procedure?.BlockageTools ?? [];
        var faults = all.Select(entry => Fault(entry, reading, tools)).OfType<TimelineFault>().ToList();
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

    private static TimelineFault? Fault(
        OrderedEvent entry,
        TimelineReading reading,
        ImmutableArray<string> tools
    )
    {
        var words = reading.Words;
        if (entry.Event.Kind == TimelineEventKind.BlockageClearedByHand)
        {
            return new(
                Verdict.NotMet,
                FindingReason.ProcedureNotFollowed,
                $"The record shows the blockage cleared by hand {words.AtBy(entry)}.",
                [entry],
                Act
            );
        }

        var cleared =
            $"The record shows the blockage cleared {words.AtBy(entry)}, entered as with a tool, and";
        return ByHow(entry, cleared, tools, reading) ?? ByWhy(entry, cleared);
    }

    // What is said of why names no tool, and may name hands all the same.
    private static TimelineFault? ByWhy(OrderedEvent entry, string cleared) =>
        entry.Event.Reason is { } reason
        && (
            ByHandAlone().IsMatch(reason)
            || SpeaksOfHands().IsMatch(reason)
            || SpeaksOfLimbs().IsMatch(reason)
            || SpeaksOfTurning().IsMatch(reason)
        )
            ? Unproven(
                $"{cleared} of why it says `{reason}`: that hands stayed out of a reel that stood still is not shown.",
                entry
            )
            : null;

    private static TimelineFault? ByHow(
        OrderedEvent entry,
        string cleared,
        ImmutableArray<string> tools,
        TimelineReading reading
    )
    {
        if (entry.Event.Method is not { } method)
        {
            return null;
        }

        return IsByHand(entry)
                ? new(
                    Verdict.NotMet,
                    FindingReason.ProcedureNotFollowed,
                    $"{cleared} of how it says `{method}`.",
                    [entry],
                    Act
                )
            : SpeaksOfHands().IsMatch(method) || SpeaksOfLimbs().IsMatch(method)
                ? Unproven(
                    $"{cleared} of how it says `{method}`: that hands and feet stayed out of the reel is not shown.",
                    entry
                )
            : SpeaksOfTurning().IsMatch(method)
                ? Unproven(
                    $"{cleared} of how it says `{method}`: that the reel stood still is not shown.",
                    entry
                )
            : KeepsHandsOut(entry.Event, method, tools) || IsToolOnDeadReel(entry, method, reading) ? null
            : Unproven(
                $"{cleared} of how it says `{method}`: that hands stayed out of the reel is not shown.",
                entry
            );
    }

    private static TimelineFault Unproven(string text, OrderedEvent entry) =>
        new(
            Verdict.Unproven,
            FindingReason.NotCredible,
            text,
            [entry],
            "Have whoever cleared it say with what, whether hands stayed out, and whether the reel stood still."
        );

    private static bool KeepsHandsOut(TimelineEvent entry, string method, ImmutableArray<string> tools) =>
        entry.Measures.Contains(ProtectiveMeasure.ExtensionTool)
        || entry.Measures.Contains(ProtectiveMeasure.LongHandledBrush)
        || HandsOut().IsMatch(method)
        || (
            tools.IsEmpty
                ? LongTool().IsMatch(method)
                : tools.Any(tool => method.Contains(tool, StringComparison.OrdinalIgnoreCase))
        );

    // What the procedure does not name may be too short to keep hands out of a reel that moves; of one that cannot move no more is
    // asked than that it was a tool.
    private static bool IsToolOnDeadReel(OrderedEvent entry, string method, TimelineReading reading) =>
        TradeTool().IsMatch(method)
        && !LacksTool().IsMatch(method)
        && reading.Protection is { } protection
        && protection.ProtectedFor(entry.Event.Actor).Contains(entry.Place());

    // Each run of what is no letter belongs to the word before it: no text makes this look twice at one.
    [GeneratedRegex(
        @"^\W*(?:(?:cleared|pulled|taken|picked|freed)\W+)?(?:out\W+)?(?:(?:by|with|using)\W+)?(?:(?:my|his|her|their|the|bare|gloved)\W+)?(?:hands?|fingers?)(?:\W+(?:alone|only|no\W+tools?|without\W+(?:an?\W+|any\W+)?tools?))?\W*$",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant
    )]
    private static partial Regex ByHandAlone();

    [GeneratedRegex(
        @"(?<!\b(?:no|not by|never by|not with|without|keeps|kept|keeping)\W+)(?<!\b(?:hooks?|sticks?|rods?|poles?|bars?|levers?|rakes?|tools?|scrapers?|tongs|brush)\W+held\W+(?:by|in)\W+(?:the\W+|one\W+|my\W+)?)\b(?:hands?|fingers?)\b(?!\W+(?:tools?|hooks?|rakes?|brush(?:es)?|scrapers?|clear|kept|well|(?:never|not|nowhere)\W+(?:near|in|into|inside|close))\b)",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant
    )]
    private static partial Regex SpeaksOfHands();

    [GeneratedRegex(
        @"\b(?:with|by|using)\W+(?:(?:my|his|her|their|the|a|one|both)\W+)?(?:gloves?|foot|feet|boots?|knees?|arms?)\b(?!\W+(?:on|worn|long)\b)|\bkick(?:ed|ing)?\b|\breached\W+(?:in|into)\b(?!\W+with\b)",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant
    )]
    private static partial Regex SpeaksOfLimbs();

    // To turn the reel by a tool is how it is freed; that it turns, or that something runs, is another thing.
    [GeneratedRegex(
        @"\b(?:still|while|kept)\W+(?:it\W+)?(?:was\W+|is\W+)?(?:turning|running|spinning|rotating)\b(?!\W+(?:the|it|by|back)\b)|\b(?:reels?|engines?|machines?|drives?|motors?|blades?)\W+(?:(?:was|were|is|still)\W+){0,2}(?:turning|running|spinning|rotating|engaged)\b",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant
    )]
    private static partial Regex SpeaksOfTurning();

    // Common practice, no source: what is long or stiff enough to be worked from outside the reel.
    [GeneratedRegex(
        @"\b(?:sticks?|rods?|poles?|bars?|levers?|levered|hooks?|hooked|screwdrivers?|rakes?|brooms?|brush(?:es|ed)?|tongs|scrapers?|long\W+(?:pliers|tools?|handled\W+tools?)|extension\W+tools?)\b",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant
    )]
    private static partial Regex LongTool();

    // Common practice, no source: what a jam is worked loose with, or that it was a tool.
    [GeneratedRegex(
        @"\b(?:sticks?|rods?|poles?|bars?|crow\W?bars?|pry\W?bars?|pinch\W?bars?|levers?|levered|pr(?:y|ied)|hooks?|hooked|(?:screw)?drivers?|rakes?|brooms?|brush(?:es|ed)?|tongs|scrapers?|tools?|implements?|spanners?|wrench(?:es)?|pliers|pincers|grips?|tweezers|cutters?|snips|shears|saws?|hacksaws?|knife|knives|chisels?|drifts?|punch(?:es)?|wedges?|mallets?|hammers?|picks?)\b",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant
    )]
    private static partial Regex TradeTool();

    [GeneratedRegex(
        @"\b(?:no|not|never|without|forgot|instead\W+of|lack(?:ed|ing)?)\b",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant
    )]
    private static partial Regex LacksTool();

    [GeneratedRegex(
        @"\b(?:no|not by|never by|not with|without|keeps|kept|keeping)\W+(?:any\W+|the\W+|my\W+)?(?:hands?|fingers?)\b|\b(?:hands?|fingers?)\W+(?:well\W+)?(?:clear|kept|out|outside|away|(?:never|not|nowhere)\W+(?:near|in|into|inside|close))\b",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant
    )]
    private static partial Regex HandsOut();
}
