using System.Collections.Immutable;
using System.Text.RegularExpressions;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// The measures recorded before one run, held against what the procedure asks for its kind of run; where it asks nothing,
/// one at least must keep people from what turns. They count from whoever has a part in the run, or may direct it.
/// </summary>
internal static partial class MeasuresForRun
{
    private const string SayMeasures =
        "Say before the reel is run how people are kept clear: long-handled brush, guards, who holds the stop, no gloves near the turning reel.";

    /// <summary>What is against them; null: they cover the run.</summary>
    /// <param name="duty">The job.</param>
    /// <param name="start">The entry that begins the run.</param>
    /// <param name="before">Measures recorded before it, at least one entry.</param>
    /// <param name="asked">What the procedure asks for this run; empty: nothing.</param>
    public static TimelineFault? Fault(
        DutyFrame duty,
        OrderedEvent start,
        ImmutableArray<OrderedEvent> before,
        ImmutableArray<ProtectiveMeasure> asked
    )
    {
        var words = duty.Words;
        var ran = $"{EventWords.Done(start.Event.Kind)} at {words.Time(start)}";
        var theirs = before.Where(entry => IsTheirs(duty, start, entry)).ToImmutableArray();
        if (theirs.IsEmpty)
        {
            return new(
                Verdict.Unproven,
                FindingReason.StepMissing,
                $"The record shows {EventWords.Done(TimelineEventKind.AlternativeMeasuresRecorded)} before {ran} only {words.AtBy(before[^1])}, who has no part in the run and is not shown as authorised.",
                [.. before, start],
                "Have whoever runs the machine say which measures were in place."
            );
        }

        var said = theirs.SelectMany(entry => entry.Event.Measures).ToImmutableHashSet();
        return Missing(said, asked, theirs, start, ran) ?? SaidOtherwise(theirs, start, words, ran);
    }

    /// <summary>Words of how or why that say that guards were off.</summary>
    public static bool SaysGuardsOff(OrderedEvent entry) => WordsOfGuardsOff(entry) is not null;

    /// <summary>The words themselves; null: none say so.</summary>
    public static string? WordsOfGuardsOff(OrderedEvent entry) =>
        new[] { entry.Event.Method, entry.Event.Reason }
            .OfType<string>()
            .FirstOrDefault(words => GuardsOff().IsMatch(words));

    private static TimelineFault? Missing(
        ImmutableHashSet<ProtectiveMeasure> said,
        ImmutableArray<ProtectiveMeasure> asked,
        ImmutableArray<OrderedEvent> theirs,
        OrderedEvent start,
        string ran
    )
    {
        var missing = asked.Where(measure => !said.Contains(measure)).ToImmutableArray();
        if (!missing.IsEmpty || said.IsEmpty)
        {
            // Measures told in words only are told, and cannot be held against the list.
            var inWordsOnly =
                said.IsEmpty && (asked.IsEmpty || theirs.Any(entry => entry.Event.Method is not null));
            var list = TimelineWords.List(missing.Select(MeasureWords.Of));
            return new(
                inWordsOnly ? Verdict.Unproven : Verdict.NotMet,
                inWordsOnly ? FindingReason.StepMissing : FindingReason.ProcedureNotFollowed,
                missing.IsEmpty
                        ? $"The record names no measure before {ran}: that people were kept from what turns is not shown."
                    : inWordsOnly
                        ? $"The record tells the measures before {ran} in words only, so they cannot be held against the procedure: {list}."
                    : $"Before {ran} the record does not show all the measures that the procedure asks for: {list}.",
                [.. theirs, start],
                SayMeasures
            );
        }

        if (!asked.IsEmpty || said.Overlaps(MeasureWords.AgainstTheRun))
        {
            return null;
        }

        var isNone = said.All(measure =>
            MeasureWords.IsOnThePerson(measure) || MeasureWords.IsOfStandstill(measure)
        );
        return new(
            isNone ? Verdict.NotMet : Verdict.Unproven,
            isNone ? FindingReason.ProcedureNotFollowed : FindingReason.StepMissing,
            $"The only measures that the record shows before {ran} are {TimelineWords.List(said.Order().Select(MeasureWords.Of))}: {(isNone ? "that keeps nobody from what turns" : "that they keep people from what turns is not shown")}.",
            [.. theirs, start],
            $"Put in place, and record, before the run what keeps people from it: {TimelineWords.List(MeasureWords.AgainstTheRun.Select(MeasureWords.Of))}."
        );
    }

    private static TimelineFault? SaidOtherwise(
        ImmutableArray<OrderedEvent> theirs,
        OrderedEvent start,
        TimelineWords words,
        string ran
    ) =>
        theirs.LastOrDefault(SaysGuardsOff) is { } spoken
            ? new(
                Verdict.Unproven,
                FindingReason.NotCredible,
                $"The record shows {EventWords.Done(spoken.Event.Kind)} {words.AtBy(spoken)}, before {ran}, and says of {(WordsOfGuardsOff(spoken) == spoken.Event.Method ? "how" : "why")} `{WordsOfGuardsOff(spoken)}`.",
                [spoken, start],
                "Have whoever was there say whether the guards were on while it ran."
            )
            : null;

    // Somebody affected, with no part in the run, knows of no measure that others rely on.
    private static bool IsTheirs(DutyFrame duty, OrderedEvent start, OrderedEvent entry) =>
        entry.Event.Actor == start.Event.Actor
        || duty.Reading.HandsIn.Contains(entry.Event.Actor)
        || duty.Reading.Of(TimelineEventKind.EnergisedTaskPerformed)
            .Any(task => task.Event.Actor == entry.Event.Actor)
        || (
            duty.RoleOf(entry.Event.Actor) != JobRole.Affected
            && Authorities.Of(duty, entry.Event.Actor) == Authority.Shown
        );

    [GeneratedRegex(
        @"\b(?:guards?|shields?|deflectors?|covers?)\b(?:\W+(?:is|are|was|were|been|being|left|still|all|both|front|rear|now|taken))*\W+(?:off|removed|missing|lifted)\b|\b(?:no|without|removed|took off|lifted)\W+(?:the\W+|any\W+)?(?:guards?|shields?|deflectors?|covers?)\b",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant
    )]
    private static partial Regex GuardsOff();
}
