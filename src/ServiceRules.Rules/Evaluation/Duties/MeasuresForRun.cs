using System.Collections.Immutable;
using System.Text.RegularExpressions;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// The measures recorded before one run, held against what the procedure asks for its kind of run; where it asks nothing,
/// one at least must keep people from what turns. They count from people shown as authorised who have a part in the run, or
/// may direct it, and as far as the people of the run are as they say.
/// </summary>
internal static partial class MeasuresForRun
{
    private const string SayMeasures =
        "Say before the reel is run how people are kept clear: long-handled brush, guards, who holds the stop, no gloves near the turning reel.";

    /// <summary>What is against them; empty: they cover the run.</summary>
    /// <param name="duty">The job.</param>
    /// <param name="start">The entry that begins the run.</param>
    /// <param name="before">Measures recorded before it, at least one entry.</param>
    /// <param name="asked">What the procedure asks for this run; empty: nothing.</param>
    public static IEnumerable<TimelineFault> Faults(
        DutyFrame duty,
        OrderedEvent start,
        ImmutableArray<OrderedEvent> before,
        ImmutableArray<ProtectiveMeasure> asked
    )
    {
        var words = duty.Words;
        var ran = $"{EventWords.Done(start.Event.Kind)} at {words.Time(start)}";
        var theirs = Counting(duty, start, before);
        if (theirs.IsEmpty)
        {
            return
            [
                new(
                    Verdict.Unproven,
                    FindingReason.WrongPerson,
                    $"The record shows {EventWords.Done(TimelineEventKind.AlternativeMeasuresRecorded)} before {ran} only {words.AtBy(before[^1])}, {WhyNot(duty, before[^1])}.",
                    [.. before, start],
                    "Have whoever runs the machine, and is authorised to, say which measures were in place."
                ),
            ];
        }

        var said = theirs.SelectMany(entry => entry.Event.Measures).ToImmutableHashSet();
        var fault = Missing(said, asked, theirs, start, ran) ?? SaidOtherwise(theirs, start, words, ran);
        return
        [
            .. fault is null ? [] : new[] { fault },
            .. MeasuresAtTask.Faults(duty, start, theirs, asked),
            .. Held(duty, start, before, asked)?.Faults ?? [],
        ];
    }

    /// <summary>The measures of a run held against its people; null: no run is shown, or none was recorded before it that counts.</summary>
    public static MeasuresHeld? Held(
        DutyFrame duty,
        OrderedEvent start,
        ImmutableArray<OrderedEvent> before,
        ImmutableArray<ProtectiveMeasure> asked
    ) =>
        MachineRun.Of(duty).FirstOrDefault(run => run.Start == start) is { } run
        && Counting(duty, start, before) is { IsEmpty: false } theirs
            ? MeasuresHeld.Of(duty, run, theirs, asked)
            : null;

    /// <summary>Those that count: by people shown as authorised, with a part in the run or in the job.</summary>
    public static ImmutableArray<OrderedEvent> Counting(
        DutyFrame duty,
        OrderedEvent start,
        ImmutableArray<OrderedEvent> before
    ) => [.. before.Where(entry => MayDirect(duty, entry.Event.Actor) && HasPart(duty, start, entry))];

    /// <summary>Words of how or why that say that guards were off, or that people stood where they were to be kept out.</summary>
    public static bool SaysGuardsOff(OrderedEvent entry) => WordsOfGuardsOff(entry) is not null;

    /// <summary>The words themselves; null: none say so.</summary>
    public static string? WordsOfGuardsOff(OrderedEvent entry) =>
        new[] { entry.Event.Method, entry.Event.Reason }
            .OfType<string>()
            .FirstOrDefault(words =>
                GuardsOff().IsMatch(words)
                || (
                    entry.Event.Measures.Contains(ProtectiveMeasure.ExclusionZone)
                    && DeniedStep.SaysPeopleThere(words)
                )
            );

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
                "Have whoever was there say whether the guards were on, and everybody else out, while it ran."
            )
            : null;

    // Authorised, or named by the procedure to run the reel for a task.
    private static bool MayDirect(DutyFrame duty, Id<Participant> person) =>
        Authorities.Of(duty, person) == Authority.Shown
        || duty.Procedure?.EnergisedTasks.Any(task => task.Operators.Contains(person)) == true;

    // Somebody affected, with no part in the run, knows of no measure that others rely on.
    private static bool HasPart(DutyFrame duty, OrderedEvent start, OrderedEvent entry) =>
        duty.RoleOf(entry.Event.Actor) != JobRole.Affected
        || entry.Event.Actor == start.Event.Actor
        || duty.Reading.HandsIn.Contains(entry.Event.Actor)
        || duty.Reading.Of(TimelineEventKind.EnergisedTaskPerformed)
            .Any(task => task.Event.Actor == entry.Event.Actor);

    private static string WhyNot(DutyFrame duty, OrderedEvent entry) =>
        !MayDirect(duty, entry.Event.Actor)
            ? Authorities.Against(Authorities.Of(duty, entry.Event.Actor))
            : "who is affected by the work and has no part in the run";

    [GeneratedRegex(
        @"\b(?:guards?|shields?|deflectors?|covers?)\b(?:\W+(?:is|are|was|were|been|being|left|still|all|both|front|rear|now|taken))*\W+(?:off|removed|missing|lifted)\b|\b(?:no|without|removed|took off|lifted)\W+(?:the\W+|any\W+)?(?:guards?|shields?|deflectors?|covers?)\b",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant
    )]
    private static partial Regex GuardsOff();
}
