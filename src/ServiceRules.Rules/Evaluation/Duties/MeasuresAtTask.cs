using System.Collections.Immutable;
using System.Text.RegularExpressions;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// What the entries of a task on the running reel say of their own measures, and what words of it or of the measures before it tell
/// of hands at the turning reel. Paste is put on with a long-handled brush, never by finger, rag or short brush
/// (energised-tasks.md). A few turns of English; others are a person's to read.
/// </summary>
internal static partial class MeasuresAtTask
{
    private const RegexOptions Free = RegexOptions.IgnoreCase | RegexOptions.CultureInvariant;

    private const string Keep =
        "Stop the reel; put paste on with the long-handled brush alone, and say who did it how.";

    /// <summary>What is against one run, or against a task that no run is shown of.</summary>
    /// <param name="duty">The job.</param>
    /// <param name="start">The entry that begins it.</param>
    /// <param name="theirs">The measures before it that count, in judged order.</param>
    /// <param name="asked">What the procedure asks for it; empty: nothing.</param>
    public static IEnumerable<TimelineFault> Faults(
        DutyFrame duty,
        OrderedEvent start,
        ImmutableArray<OrderedEvent> theirs,
        ImmutableArray<ProtectiveMeasure> asked
    )
    {
        var performed =
            start.Event.Kind == TimelineEventKind.EnergisedTaskPerformed
                ? [start]
                : MachineRun.Of(duty).FirstOrDefault(run => run.Start == start)?.Performed ?? [];
        return performed
            .Select(entry => Fewer(duty, entry, asked))
            .Concat(performed.Select(entry => ByHand(duty, entry)))
            .Append(Standing(theirs) is { } said ? ByHand(duty, said) : null)
            .OfType<TimelineFault>();
    }

    /// <summary>Words of how or why that tell of hands at the turning reel; null: none do.</summary>
    public static string? WordsOfHands(TimelineEvent entry) =>
        new[] { entry.Method, entry.Reason }
            .OfType<string>()
            .FirstOrDefault(words => ShortBrush().IsMatch(words) || Hands().IsMatch(words));

    // What was put right by a later entry of measures is no longer so.
    private static OrderedEvent? Standing(ImmutableArray<OrderedEvent> theirs) =>
        theirs.LastOrDefault(entry => !entry.Event.Measures.IsEmpty || WordsOfHands(entry.Event) is not null)
            is { } last
        && WordsOfHands(last.Event) is not null
            ? last
            : null;

    private static TimelineFault? ByHand(DutyFrame duty, OrderedEvent entry) =>
        WordsOfHands(entry.Event) is { } words
            ? new(
                Verdict.NotMet,
                FindingReason.ProcedureNotFollowed,
                $"The record shows {EventWords.Done(entry.Event.Kind)} {duty.Words.AtBy(entry)}, and says of {(words == entry.Event.Method ? "how" : "why")} `{words}`: that hands were kept from the turning reel is not shown.",
                [entry],
                Keep
            )
            : null;

    private static TimelineFault? Fewer(
        DutyFrame duty,
        OrderedEvent entry,
        ImmutableArray<ProtectiveMeasure> asked
    )
    {
        var named = entry.Event.Measures;
        if (named.IsEmpty)
        {
            return null;
        }

        var missing = asked.Where(measure => !named.Contains(measure)).ToImmutableArray();
        var told =
            $"The record shows {EventWords.Done(entry.Event.Kind)} {duty.Words.AtBy(entry)} with {TimelineWords.List(named.Distinct().Order().Select(MeasureWords.Of))}";
        return !missing.IsEmpty
                ? new(
                    Verdict.Unproven,
                    FindingReason.ProcedureNotFollowed,
                    $"{told}, and not with all the measures that the procedure asks for: {TimelineWords.List(missing.Select(MeasureWords.Of))}.",
                    [entry],
                    "Have whoever did the task say which measures were in place while the reel turned."
                )
            : asked.IsEmpty && !named.Any(MeasureWords.AgainstTheRun.Contains)
                ? new(
                    Verdict.Unproven,
                    FindingReason.StepMissing,
                    $"{told}, and with nothing that keeps people from what turns.",
                    [entry],
                    "Have whoever did the task say which measures were in place while the reel turned."
                )
            : null;
    }

    [GeneratedRegex(
        DeniedStep.NotAfterNo
            + @"\b(?:short|stub(?:by)?|cut\W*down|sawn\W*off|hand|tooth)[ -]*(?:handled[ -]+)?brush(?:es)?\b|\b(?:no|without)\W+(?:(?:a|the|any|long|handled)\W+)*brush\b|"
            + DeniedStep.NotAfterNo
            + @"\bbrush\W+(?:(?:is|was|had|has|then)\W+)*(?:missing|broken|broke|lost|too\W+short|not\W+(?:there|used|found))\b(?!.*\b(?:new|another|replaced|fetched)\b)",
        Free
    )]
    private static partial Regex ShortBrush();

    // A hand on the stop or the lever is where it belongs, and a reel turned by hand was not running.
    [GeneratedRegex(
        DeniedStep.NotAfterNo
            + @"(?<!\b(?:turn(?:s|ed|ing)?|rotate[sd]?|spins?|spun|cranked|checked) +(?:\w+ +){0,2})(?<!\b(?:held|holding|gripped|brush) +)\b(?:by|with|using|off)\W+(?:(?:my|a|the|his|her|their|our|own|one|two|both|left|right)\W+)*(?:(?:bare|gloved)\W*hand(?:s|ed)?|hands?|fingers?|fingertips?|thumbs?|rags?|cloths?)\b(?! +(?:knob|lever|controls?|switch|wheel)\b)(?! +(?:(?:was|were|is|are)\W+)*(?:held|clear|away|well|kept|back|off|out|behind|brush|on\W+(?:the\W+)?(?:handle|lever|switch|stop|controls?|wheel)))|"
            + DeniedStep.NotAfterNo
            + @"\b(?:hands?|fingers?|thumbs?)\W+(?:(?:was|were|is|are|went|right|got)\W+)*(?:in|into|inside|on|at|near|close\W+to|against)\W+(?:the\W+)?(?:(?:turning|running|moving|spinning)\W+)?(?:reels?|blades?|cylinders?|bedknife)\b",
        Free
    )]
    private static partial Regex Hands();
}
