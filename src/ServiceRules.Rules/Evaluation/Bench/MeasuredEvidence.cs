using System.Collections.Immutable;
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
    /// of a fit gauge alone, if there are any; of these those of the best standing. Where they contradict one another beyond what <see cref="ReadingAgreement"/>
    /// settles, the last ones still show a breach, if there is more than one of them, and prove nothing.
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

        var together = current.FindAll(reading => reading.DisturbedAfter == current[^1].DisturbedAfter);
        var fit = together.FindAll(reading =>
            GaugeFindings.DoubtOfLength(reading, days) == FindingReason.None
        );
        var all = fit.Count > 0 ? fit : together;
        var standing = all.Max(GaugeStanding.Of);
        var counted = all.FindAll(reading => GaugeStanding.Of(reading) == standing);
        var weighed = Weigh(counted, together, fit, days, workshop);
        return GaugeStanding.Contradicting(all, counted, workshop) is { } outvoted
            ? weighed with
            {
                Conflicts = true,
                Doubt = weighed.Doubt is FindingReason.None ? FindingReason.Conflicting : weighed.Doubt,
                Outvoted = outvoted,
            }
            : weighed;
    }

    private static Weighed Weigh(
        List<LoggedReading> counted,
        List<LoggedReading> together,
        List<LoggedReading> fit,
        JobDays days,
        Temperature? workshop
    )
    {
        var isFit = fit.Count > 0;
        var latest = together[^1];
        var carried = isFit ? latest.Since.Shift : latest.Since.DoubtedShift;
        var agreement = ReadingAgreement.Of(counted, workshop);
        var doubt = isFit ? FindingReason.None : Gravest(agreement.Lately, days);
        if (isFit && !agreement.StandsAlone && LaterAgainst(together, fit[^1], workshop) is { } against)
        {
            // What the fit gauges show out stays out; what a gauge in doubt reads after them only asks for another look.
            return new(null, true, FindingReason.None)
            {
                Gauges =
                    against.Gauge is { } later && fit[^1].Gauge is { } before
                        ? new(before, later, ReadingAgreement.Compared(fit[^1], against, workshop))
                        {
                            IsLaterInDoubt = true,
                        }
                        : null,
                Contested = [Mean(agreement.Lately, workshop).ShiftedBy(Length.Zero, carried)],
                Corrected = CorrectedOf(agreement.Lately, Mean(agreement.Lately, workshop).Value) is { } moved
                    ? [moved]
                    : [],
            };
        }

        if (agreement.StandsAlone)
        {
            return new(null, true, doubt)
            {
                Gauges = agreement.Gauges,
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
                Corrected =
                [
                    .. counted
                        .Select(reading => CorrectedOf([reading], ValueOf(reading)))
                        .OfType<ZeroCorrected>(),
                ],
            };
        }

        var gauge = OneGauge(agreement.Lately);
        var mean = Mean(agreement.Lately, workshop);
        return new(
            mean.ShiftedBy(Length.Zero, carried),
            !agreement.IsSettled,
            agreement.IsSettled || doubt != FindingReason.None ? doubt : FindingReason.Conflicting
        )
        {
            Shared = SharedBy(gauge, mean.Value, agreement.Lately, carried, workshop),
            Gauge = gauge?.Id,
            AsRead = carried > Length.Zero ? mean : null,
            Corrected = CorrectedOf(agreement.Lately, mean.Value) is { } corrected ? [corrected] : [],
            Gauges = agreement.Gauges,
            Counted = agreement.Counted,
            IsReadTwice = agreement.Lately.Count > 1,
            StepTaken = StepTakenOf(agreement.Lately),
            Scale = ScaleOf(agreement.Lately),
        };
    }

    /// <summary>The last reading with a gauge in doubt after the last fit one, where it contradicts that.</summary>
    private static LoggedReading? LaterAgainst(
        List<LoggedReading> together,
        LoggedReading lastFit,
        Temperature? workshop
    ) =>
        together[(together.IndexOf(lastFit) + 1)..]
            // What cannot read it has read nothing; the finding names it.
            .FindLast(later =>
                later.Misused is null && !ReadingAgreement.Compared(lastFit, later, workshop).Agrees
            );

    private static GaugeScale? ScaleOf(List<LoggedReading> readings) =>
        readings
            .Select(reading => reading.Gauge is { } gauge ? GaugeScale.Of(gauge, StepOf(reading)) : null)
            .FirstOrDefault(scale => scale is not null);

    private static StepTaken? StepTakenOf(List<LoggedReading> readings) =>
        readings
            .Where(reading => reading.Gauge is not null)
            .GroupBy(reading => reading.Gauge!, reading => ((Observation.Measured)reading.Observed).Value)
            .Select(byGauge => StepTaken.Of(byGauge.Key, [.. byGauge]))
            .FirstOrDefault(taken => taken is not null);

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
            : GaugeFindings
                .SharedBy(gauge, value, CoarsestOf(readings), workshop)
                .WithRest(OwnOf(gauge, readings, carried));

    /// <summary>One reading by itself.</summary>
    public static MeasuredValue Of(LoggedReading reading, Temperature? workshop) => Mean([reading], workshop);

    /// <summary>What one reading shares with every other of its gauge; none where it names none.</summary>
    public static SharedError? SharedOf(LoggedReading reading, Temperature? workshop) =>
        SharedBy(reading.Gauge, ValueOf(reading), [reading], Length.Zero, workshop);

    /// <summary>The step that its gauge shows; where it states none, that by the digits written down.</summary>
    public static Length StepOf(LoggedReading reading) =>
        reading.Gauge is { } gauge ? GaugeStep.Of(gauge, CoarsestOf([reading])) : CoarsestOf([reading]);

    private static Length ValueOf(LoggedReading reading) =>
        reading.Told ?? throw new ArgumentException("no length was read", nameof(reading));

    /// <summary>What was written down, no error taken out of it.</summary>
    public static Length AsWritten(LoggedReading reading) =>
        ((Observation.Measured)reading.Observed).Value.Value;

    private static ZeroCorrected? CorrectedOf(List<LoggedReading> readings, Length value) =>
        ZeroCorrected.Of([.. readings.Select(reading => (reading.Gauge, AsWritten(reading)))], value);

    private static MeasuredValue Mean(List<LoggedReading> readings, Temperature? workshop)
    {
        var sum = readings.Sum(reading => ValueOf(reading).Millimetres);
        var mean = readings.Count == 1 ? sum : Math.Round(sum / readings.Count, Decimals);
        var coarsest = CoarsestOf(readings);
        var gauges = readings.Select(reading => reading.Gauge).Distinct().ToImmutableArray();
        var length = Length.FromMillimetres(mean);
        var counted = gauges.Length == 1 ? readings.Count : 1;
        // Different gauges share nothing that a mean would reduce: the one that proves least speaks for all.
        return gauges
            .Select(gauge =>
                gauge is null
                    ? GaugeFindings.BudgetWithoutGauge(coarsest)
                    : GaugeFindings.BudgetOf(gauge, length, counted, coarsest, workshop)
            )
            .Select(budget => budget.Around(length))
            .MaxBy(each => each.Expanded.Value)!;
    }

    /// <summary>What readings with one gauge do not share with its others, with the doubt that came on since.</summary>
    private static UncertaintyBudget OwnOf(Instrument gauge, List<LoggedReading> readings, Length shift) =>
        UncertaintyBudget.Of([
            .. GaugeFindings.Own(gauge, readings.Count, CoarsestOf(readings)),
            UncertaintyContribution.WithinHalfWidth(UncertaintySource.Movement, shift),
        ]);

    private static Length CoarsestOf(List<LoggedReading> readings) =>
        readings.Max(reading =>
            GaugeStep.Written(((Observation.Measured)reading.Observed).Value, reading.Gauge?.Kind)
        );

    private static FindingReason Gravest(List<LoggedReading> readings, JobDays days) =>
        readings.ConvertAll(reading => GaugeFindings.DoubtOfLength(reading, days)) is var doubts
        && doubts.Contains(FindingReason.GaugeUnfit)
            ? FindingReason.GaugeUnfit
        : doubts.Contains(FindingReason.GaugeCannotRead) ? FindingReason.GaugeCannotRead
        : FindingReason.UncertaintyUnknown;
}
