using System.Collections.Immutable;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Bench;

/// <summary>Brings everything noted at one place together into what is known there.</summary>
internal sealed class PlaceEvidence(
    ImmutableArray<BenchEntry> entries,
    LimitSheet sheet,
    JobDays days,
    Temperature? workshop,
    ImmutableArray<StepsTried> steps
)
{
    private readonly FeelerEvidence feelers = new(entries, sheet, days, steps);

    public PlaceKnown Known(PlaceKey place, IReadOnlyList<LoggedReading> readings)
    {
        var current = readings.Where(IsCurrent).ToList();
        var measured = MeasuredEvidence.Weigh(readings, days, workshop);
        var tried = feelers.Weigh(readings);
        var contact = ContactEvidence.Of(current);
        var paper = SightEvidence<PaperResult>.Of(
            current,
            seen => (seen as Observation.Paper)?.Result,
            // Held or missed, a strip is not cut either way.
            (first, second) => first is PaperResult.Cuts == second is PaperResult.Cuts
        );
        var condition = SightEvidence<Condition>.Of(current, seen => (seen as Observation.Seen)?.Condition);
        var length = Together(measured, tried);
        var isReadInBoth =
            readings.Where(StillTells).SelectMany(reading => reading.Systems).Distinct().Count() > 1;
        var conflicts =
            length.Conflicts || contact.Contradiction is not null || paper.Conflicts || condition.Conflicts;
        return new()
        {
            Station = place.Station,
            Blade = place.Blade,
            State = StateOf(current, conflicts),
            Knowledge = length.Knowledge,
            Contested = length.Knowledge is null ? length.Contested : [],
            IsGauged = readings.Any(reading =>
                reading.Observed is Observation.Measured or Observation.FeelerTest
            ),
            Feelers = FeelerEvidence.AsLeft(readings),
            IsReadTwice = length.IsReadTwice,
            FeelerContradiction = tried.Contradiction,
            Contact = contact.Seen,
            ContactBelieved = contact.Believed,
            ContactContradiction = contact.Contradiction,
            Paper = paper.Seen,
            Condition = condition.Seen,
            System =
                (isReadInBoth ? null : readings.LastOrDefault(reading => reading.System is not null)?.System)
                ?? sheet.Width.Governing.System,
            IsReadInBoth = isReadInBoth,
            CountsEarlierTries = length.CountsEarlierTries,
            LeavesOutTries = length.Knowledge is LengthInterval && tried.LeavesOutTries,
            Doubt = length.Doubt,
            AsRead = length.Knowledge is MeasuredValue ? length.AsRead : null,
            Shared = length.Shared,
            Gauge = length.Gauge,
            Gauges = measured.Gauges,
            StepTaken = length.Knowledge is MeasuredValue ? measured.StepTaken : null,
            Scale = length.Knowledge is MeasuredValue ? measured.Scale : null,
            Corrected =
                length.Knowledge is MeasuredValue || length.Knowledge is null ? measured.Corrected : [],
            Counted = measured.Counted,
            Outvoted = measured.Outvoted,
            Misused =
            [
                .. readings
                    .Where(StillTells)
                    .Select(reading => reading.Misused)
                    .OfType<GaugeMisused>()
                    .DistinctBy(misused => misused.Gauge.Id),
            ],
            Evidence = EvidenceOf(readings, current, length.Knowledge is LengthInterval),
        };
    }

    /// <summary>
    /// Whether a reading still tells something. A sight of contact or paper has no margin: whatever shifts the gap
    /// voids it. A condition is not a length: a stated shift leaves it as it is.
    /// </summary>
    private static bool IsCurrent(LoggedReading reading) =>
        reading.Observed is Observation.Contact or Observation.Paper ? reading.Since.IsNone : !reading.IsVoid;

    /// <summary>Whether what is known may rest on it: current, or a feeler moved along with the steps that are known since.</summary>
    private static bool StillTells(LoggedReading reading) =>
        IsCurrent(reading) || reading is { Observed: Observation.FeelerTest, Since.IsStale: false };

    private static KnownState StateOf(List<LoggedReading> current, bool conflicts) =>
        conflicts ? KnownState.Conflicting
        : current.Count == 0 ? KnownState.Stale
        : current.Exists(reading => reading.Since.IsNone || reading.Observed is Observation.Seen)
            ? KnownState.Fresh
        : KnownState.Carried;

    private static Weighed Together(Weighed measured, Weighed tried)
    {
        if (measured.Conflicts || tried.Conflicts)
        {
            // What feelers that conflict tell by themselves counts only where nothing else was read.
            var contested = Believable(measured, tried);
            return measured.Conflicts ? measured with { Contested = contested }
                : measured.Knowledge is null ? tried with { Contested = contested }
                : tried with { Knowledge = null, Contested = contested };
        }

        if (measured.Knowledge is not { } value || tried.Knowledge is not LengthInterval interval)
        {
            return measured.Knowledge is not null ? measured : tried;
        }

        if (value.AsInterval().Meet(interval) is IntervalMeeting.Contradiction)
        {
            return new(null, true, measured.Doubt) { Contested = Believable(measured, tried) };
        }

        return measured.Doubt == FindingReason.None || tried.Doubt != FindingReason.None ? measured : tried;
    }

    /// <summary>All that may be believed of two kinds of evidence; nothing when nothing is known of one of their gauges.</summary>
    private static ImmutableArray<Knowledge> Believable(Weighed measured, Weighed tried) =>
        measured.Doubt is FindingReason.UncertaintyUnknown || tried.Doubt is FindingReason.UncertaintyUnknown
            ? []
            : [.. Believable(measured), .. Believable(tried)];

    private static ImmutableArray<Knowledge> Believable(Weighed weighed) =>
        !weighed.Contested.IsEmpty ? weighed.Contested
        : weighed.Knowledge is { } known ? [known]
        : [];

    private static ImmutableArray<string> EvidenceOf(
        IReadOnlyList<LoggedReading> readings,
        List<LoggedReading> current,
        bool carriesFeelers
    )
    {
        if (current.Count == 0)
        {
            var last = readings[^1];
            return last.VoidedBy is { } voidedBy ? [last.Pointer, voidedBy] : [last.Pointer];
        }

        return
        [
            .. readings
                .Where(reading =>
                    current.Contains(reading)
                    || (
                        carriesFeelers
                        && reading is { Observed: Observation.FeelerTest, Since.IsStale: false }
                    )
                )
                .Select(reading => reading.Pointer),
        ];
    }
}
