using System.Collections.Immutable;
using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Rules.Evaluation.Bench;

/// <summary>What lengths read at one place amount to: their mean, carried with the doubt that came on since.</summary>
internal static class MeasuredEvidence
{
    // A mean is rounded to where uncertainties are, so that three readings do not make 28 digits.
    private const int Decimals = 7;

    /// <summary>
    /// Weighs the lengths read at one place. Only those with nothing disturbed between them and the last count; those
    /// of a fit gauge alone, if there are any. They conflict when the last stands alone: its expanded uncertainty and
    /// that of the one before it do not meet.
    /// </summary>
    public static Weighed Weigh(IReadOnlyList<LoggedReading> atPlace, JobDays days, Temperature? workshop)
    {
        var current = atPlace
            .Where(reading => reading.Observed is Observation.Measured && !reading.IsVoid)
            .ToList();
        if (current.Count == 0)
        {
            return Weighed.Nothing;
        }

        var shift = current[^1].Since.Shift;
        var together = current.FindAll(reading => reading.Since.Shift == shift);
        var fit = together.FindAll(reading =>
            GaugeFindings.DoubtOfLength(reading.Gauge, days) == FindingReason.None
        );
        var counted = fit.Count > 0 ? fit : together;
        var carried = fit.Count > 0 ? shift : current[^1].Since.DoubtedShift;
        var agreeing = AgreeingWithLast(counted, workshop);
        var doubt = fit.Count > 0 ? FindingReason.None : Gravest(agreeing, days);
        var gauges = Compared(counted, workshop);
        if (agreeing.Count == 1 && counted.Count > 1)
        {
            return new(null, true, doubt)
            {
                Gauges = gauges,
                Shared = SharedBy(
                    OneGauge(counted),
                    Mean([counted[^1]], workshop).Value,
                    [counted[^1]],
                    carried,
                    workshop
                ),
                Contested =
                [
                    .. counted.Select(reading => Mean([reading], workshop).ShiftedBy(Length.Zero, carried)),
                ],
            };
        }

        var gauge = OneGauge(agreeing);
        var mean = Mean(agreeing, workshop);
        return new(mean.ShiftedBy(Length.Zero, carried), false, doubt)
        {
            Shared = SharedBy(gauge, mean.Value, agreeing, carried, workshop),
            Gauge = gauge?.Id,
            AsRead = carried > Length.Zero ? mean : null,
            Gauges = gauges,
        };
    }

    /// <summary>The gauge that took all of them; none where there were several, or none is named.</summary>
    private static Instrument? OneGauge(List<LoggedReading> readings) =>
        readings.TrueForAll(reading => reading.Gauge == readings[0].Gauge) ? readings[0].Gauge : null;

    private static SharedError? SharedBy(
        Instrument? gauge,
        Length value,
        List<LoggedReading> readings,
        Length carried,
        Temperature? workshop
    ) =>
        gauge is null
            ? null
            : GaugeFindings.SharedBy(gauge, value, CoarsestOf(readings), workshop) with
            {
                Rest = OwnOf(gauge, readings, carried).DegreesOfFreedom,
            };

    private static List<LoggedReading> AgreeingWithLast(List<LoggedReading> readings, Temperature? workshop)
    {
        var last = Mean([readings[^1]], workshop);
        var disagreeing = readings.FindLastIndex(reading => !Agree(Mean([reading], workshop), last));
        return readings[(disagreeing + 1)..];
    }

    private static bool Agree(MeasuredValue one, MeasuredValue other) =>
        (one.Value - other.Value).Abs <= one.Expanded.Value + other.Expanded.Value;

    /// <summary>The last reading against the last that another gauge took.</summary>
    private static GaugeComparison? Compared(List<LoggedReading> readings, Temperature? workshop)
    {
        var later = readings[^1];
        var earlier = readings.FindLast(reading => reading.Gauge is not null && reading.Gauge != later.Gauge);
        return later.Gauge is null || earlier is null
            ? null
            : new(
                earlier.Gauge!,
                later.Gauge,
                NormalisedError.Of(Mean([earlier], workshop), Mean([later], workshop))
            );
    }

    private static MeasuredValue Mean(List<LoggedReading> readings, Temperature? workshop)
    {
        var values = readings.ConvertAll(reading => ((Observation.Measured)reading.Observed).Value);
        var sum = values.Sum(value => value.Value.Millimetres);
        var mean = readings.Count == 1 ? sum : Math.Round(sum / readings.Count, Decimals);
        var coarsest = CoarsestOf(readings);
        var gauges = readings.Select(reading => reading.Gauge).Distinct().ToImmutableArray();
        var length = Length.FromMillimetres(mean);
        var counted = gauges.Length == 1 ? readings.Count : 1;
        // Different gauges share nothing that a mean would reduce: the coarsest speaks for all.
        var budget = gauges
            .Select(gauge =>
                gauge is null
                    ? GaugeFindings.BudgetWithoutGauge(coarsest)
                    : GaugeFindings.BudgetOf(gauge, length, counted, coarsest, workshop)
            )
            .MaxBy(each => each.Combined.Value)!;
        return new(length, budget.Combined, budget.DegreesOfFreedom);
    }

    /// <summary>What readings with one gauge do not share with its others, with the doubt that came on since.</summary>
    private static UncertaintyBudget OwnOf(Instrument gauge, List<LoggedReading> readings, Length shift) =>
        UncertaintyBudget.Of([
            .. GaugeFindings.Own(gauge, readings.Count, CoarsestOf(readings)),
            UncertaintyContribution.WithinHalfWidth(UncertaintySource.Movement, shift),
        ]);

    private static Length CoarsestOf(List<LoggedReading> readings) =>
        readings.Max(reading => ((Observation.Measured)reading.Observed).Value.RoundingHalfWidth);

    private static FindingReason Gravest(List<LoggedReading> readings, JobDays days) =>
        readings.Exists(reading =>
            GaugeFindings.DoubtOfLength(reading.Gauge, days) == FindingReason.GaugeUnfit
        )
            ? FindingReason.GaugeUnfit
            : FindingReason.UncertaintyUnknown;
}
