using System.Collections.Immutable;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// Pressure that one record reads above its limit while another of the machine shows hands in, or shows them going in with
/// nothing in either that let it off since.
/// </summary>
/// <param name="Source">Of which source.</param>
/// <param name="High">The reading.</param>
/// <param name="Hands">The hands.</param>
internal sealed record PressureBeside(EnergySource Source, OrderedEvent High, HandsKnown Hands)
{
    private const string TellThem =
        "Tell whoever has hands in the machine at once; hands out, and release the pressure before work goes on.";

    /// <summary>Told at both: at the record that read it, and at the one with hands in.</summary>
    public static IEnumerable<TimelineFault> Faults(JobBeside both) =>
        In(both, both.Own, both.HandsOfTheOther)
            .Select(found =>
                found.Fault(
                    $"The record shows {found.Read(both.Words)}, and record {both.Name} shows {found.Hands.Person} with hands in {both.Duty.Record.Machine.Id} {found.Hands.Told(both.Words)}.",
                    [found.High],
                    [],
                    TellThem
                )
            )
            .Concat(
                In(both, both.Others, both.OwnHands)
                    .Select(found =>
                        found.Fault(
                            $"Record {both.Name} shows {found.Read(both.Words)}, and this record shows {found.Hands.Person} with hands in {found.Hands.Told(both.Words)}.",
                            found.Hands.Entries,
                            found.Hands.Beside,
                            RecheckReadings.Act
                        )
                    )
            );

    private static IEnumerable<PressureBeside> In(
        JobBeside both,
        TimelineReading reader,
        IEnumerable<HandsKnown> atWork
    ) =>
        from source in EffectiveSources.Of(both.Own).Select(one => one.Source)
        from high in SourceReading.PressuresRead(reader, source)
        where SourceReading.IsAboveLimit(source, high.Event)
        from hands in atWork
        where
            hands.From <= high.Moment
                ? high.Moment < hands.Until && !IsOutAtOnce(hands, high)
                : !IsLetOff(source, high, hands, [both.Own, both.Others])
        select new PressureBeside(source, high, hands);

    private static bool IsOutAtOnce(HandsKnown hands, OrderedEvent high) =>
        hands.IsEnded && hands.Until - high.Moment <= RecheckReadings.AtOnce;

    private static bool IsLetOff(
        EnergySource source,
        OrderedEvent high,
        HandsKnown hands,
        ImmutableArray<TimelineReading> both
    ) =>
        both.Any(reading =>
            SourceReading
                .Releases(reading, source)
                .Concat(SourceReading.Verifications(reading, source))
                .Concat(
                    SourceReading
                        .PressuresRead(reading, source)
                        .Where(entry => !SourceReading.IsAboveLimit(source, entry.Event))
                )
                .Any(entry =>
                    high.Moment <= entry.Moment
                    && entry.Moment <= hands.From
                    && !SaidOtherwise.By(entry.Event)
                )
        );

    private string Read(TimelineWords words) =>
        $"{TimelineWords.Named(Source)} read at {High.Event.Pressure} {words.AtBy(High)}, above the {Source.RecheckLimit} that are allowed";

    private TimelineFault Fault(
        string text,
        ImmutableArray<OrderedEvent> entries,
        ImmutableArray<string> besides,
        string act
    )
    {
        var fault = new TimelineFault(Verdict.NotMet, FindingReason.Unprotected, text, entries, act, besides);
        return
            Hands.From != Hands.Until
            && High.Place().IsInTheMinuteOf(Hands.Entries[0].Place() with { Index = High.Index })
            ? LeadUpOutcome.Untold(fault)
            : fault;
    }
}
