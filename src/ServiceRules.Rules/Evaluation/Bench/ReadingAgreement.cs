using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Rules.Evaluation.Bench;

/// <summary>
/// Which lengths read at one place, with nothing turned between, agree with the latest of them. Contradictions are settled
/// by repeating: at least the last two agree, more readings agree with the latest than do not, and more gauges, each by what it
/// last read. Otherwise whoever wants another answer would only have to read until it comes out twice, or with another gauge.
/// </summary>
internal sealed class ReadingAgreement
{
    private readonly List<LoggedReading> all;
    private readonly List<LoggedReading> contradicting;
    private readonly Temperature? workshop;

    private ReadingAgreement(List<LoggedReading> all, Temperature? workshop)
    {
        this.all = all;
        this.workshop = workshop;
        contradicting = all.FindAll(reading => !Compared(reading, all[^1]).Agrees);
        Lately = contradicting.Count == 0 ? all : all[(all.IndexOf(contradicting[^1]) + 1)..];
    }

    /// <summary>Those since the last that contradicts the latest, which is one of them.</summary>
    public List<LoggedReading> Lately { get; }

    /// <summary>The latest contradicts the one before it.</summary>
    public bool StandsAlone => Lately.Count == 1 && all.Count > 1;

    /// <summary>Nothing contradicts the latest, or what does is outweighed.</summary>
    public bool IsSettled =>
        contradicting.Count == 0
        || (
            Lately.Count > 1 && contradicting.Count * 2 < all.Count && GaugesContradicting * 2 < Gauged.Count
        );

    /// <summary>How many of the readings count; none where all do.</summary>
    public ReadingsCounted? Counted =>
        contradicting.Count == 0
            ? null
            : new(
                all.Count,
                Lately.Count,
                contradicting.Count,
                MeasuredEvidence.AsWritten(contradicting[^1]),
                IsSettled
            );

    /// <summary>
    /// The latest against the last that contradicts it, or else against the last that another gauge took. Of one gauge that
    /// contradicted itself nothing once that is settled.
    /// </summary>
    public GaugeComparison? Gauges
    {
        get
        {
            var latest = all[^1];
            var earlier =
                contradicting.FindLast(reading => !IsSettled || reading.Gauge != latest.Gauge)
                ?? all.FindLast(reading => reading.Gauge is not null && reading.Gauge != latest.Gauge);
            return latest.Gauge is { } later && earlier?.Gauge is { } before
                ? new(before, later, Compared(earlier, latest)) { IsSettled = IsSettled }
                : null;
        }
    }

    /// <summary>What each gauge last read; readings that name none count as of one.</summary>
    private List<LoggedReading> Gauged =>
        [.. all.GroupBy(reading => reading.Gauge).Select(each => each.Last())];

    private int GaugesContradicting => Gauged.Count(contradicting.Contains);

    /// <summary>Holds the readings at one place, in order, against the latest.</summary>
    public static ReadingAgreement Of(List<LoggedReading> readings, Temperature? workshop) =>
        new(readings, workshop);

    private NormalisedError Compared(LoggedReading one, LoggedReading other) =>
        Compared(one, other, workshop);

    /// <summary>How far two readings are apart against what explains a difference.</summary>
    public static NormalisedError Compared(LoggedReading one, LoggedReading other, Temperature? workshop)
    {
        var (first, second) = (MeasuredEvidence.Of(one, workshop), MeasuredEvidence.Of(other, workshop));
        return one.Gauge == other.Gauge
            ? NormalisedError.OfOneGauge(
                first,
                second,
                MeasuredEvidence.SharedOf(one, workshop),
                MeasuredEvidence.SharedOf(other, workshop),
                (MeasuredEvidence.StepOf(one) + MeasuredEvidence.StepOf(other)) * 0.5m
            )
            : NormalisedError.Of(first, second);
    }
}
