using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Rules.Evaluation.Bench;

/// <summary>What a gauge contributes to the uncertainty of a reading, and whether it may prove anything at all.</summary>
internal static class GaugeFindings
{
    /// <summary>
    /// Why readings with this gauge cannot prove anything: it failed an inspection, its calibration had run out by the
    /// last of the job's days or was not yet done when the work was, or a zero check, or the drift between two, came out larger than a zero may be off. None when there is no such reason.
    /// </summary>
    public static FindingReason Unfitness(Instrument gauge, JobDays days)
    {
        var failed = gauge.Inspection is { Result: Condition.Faulty };
        var outOfDate =
            gauge.Calibration is { } calibration
            && (calibration.HoldsUntil < days.Latest || calibration.Date > days.Worked);
        var zeroOff =
            IsOff(gauge, gauge.ZeroCheck) || IsOff(gauge, gauge.ZeroCheckAfter) || HasDrifted(gauge);
        return failed || outOfDate || zeroOff ? FindingReason.GaugeUnfit : FindingReason.None;
    }

    /// <summary>Why a length that was read (with a gauge, or with none named) cannot prove anything, or None.</summary>
    public static FindingReason DoubtOfLength(LoggedReading reading, JobDays days)
    {
        if (reading.Gauge is not { } gauge)
        {
            return FindingReason.UncertaintyUnknown;
        }

        var unfit = Unfitness(gauge, days);
        var nothingKnown =
            gauge is { Calibration: null, ZeroCheck: null, Resolution: null }
            && !(gauge.Kind is InstrumentKind.FixedSizePiece && gauge.Tolerance is not null);
        return unfit != FindingReason.None ? unfit
            : nothingKnown ? FindingReason.UncertaintyUnknown
            : reading.Misused is not null ? FindingReason.GaugeCannotRead
            : FindingReason.None;
    }

    /// <summary>
    /// The budget of the mean of readings with one gauge: resolution (where the gauge states none, the step by the digits that
    /// were written down; else they play no part, so that the same reading in other units is the same reading), repeatability
    /// over the root of the number of readings, and what all its readings share.
    /// </summary>
    public static UncertaintyBudget BudgetOf(
        Instrument gauge,
        Length length,
        int readings,
        Length stepWritten,
        Temperature? workshop
    ) =>
        UncertaintyBudget.Of([
            .. Own(gauge, readings, stepWritten),
            .. Common(gauge, length, stepWritten, workshop),
        ]);

    /// <summary>The part of that budget which other readings with the gauge do not share.</summary>
    public static IEnumerable<UncertaintyContribution> Own(
        Instrument gauge,
        int readings,
        Length stepWritten
    ) =>
        [
            UncertaintyContribution.Resolution(GaugeStep.Of(gauge, stepWritten)),
            .. Scattering(gauge, readings),
            .. Some(TakenForWant.ScatterTaken(gauge, GaugeStep.Of(gauge, stepWritten), readings)),
        ];

    private static IEnumerable<UncertaintyContribution> Scattering(Instrument gauge, int readings) =>
        [.. Repeating(gauge, readings), .. Drifting(gauge)];

    private static IEnumerable<UncertaintyContribution> Some(UncertaintyContribution? line) =>
        line is null ? [] : [line];

    /// <summary>Where no gauge is named, the digits that were written down are all there is.</summary>
    public static UncertaintyBudget BudgetWithoutGauge(Length stepWritten) =>
        UncertaintyBudget.Of(UncertaintyContribution.Resolution(stepWritten));

    /// <summary>The part that all readings with one gauge have in common: its calibration, its zero, the workshop's heat.</summary>
    public static SharedError SharedBy(
        Instrument gauge,
        Length length,
        Length stepWritten,
        Temperature? workshop
    )
    {
        var budget = UncertaintyBudget.Of([.. Common(gauge, length, stepWritten, workshop)]);
        return budget.SharedBy(gauge.Id.Text);
    }

    private static IEnumerable<UncertaintyContribution> Common(
        Instrument gauge,
        Length length,
        Length stepWritten,
        Temperature? workshop
    ) =>
        [
            .. ByRecord(gauge, length, stepWritten, workshop),
            .. Some(TakenForWant.ZeroTaken(gauge)),
            .. Some(Shortfall(gauge, stepWritten)),
        ];

    /// <summary>
    /// What the site's register has of a gauge beyond what the record has, of one reading and without the step: calibration, zero and
    /// repeatability of the record count as far as they go, and the rest up to the register's is added. None where the record has as much.
    /// </summary>
    private static UncertaintyContribution? Shortfall(Instrument gauge, Length stepWritten)
    {
        if (gauge.Register?.Entry is not { } entry)
        {
            return null;
        }

        var registered = UncertaintyBudget.Of(entry.Contribution).Combined.Value;
        var recorded = UncertaintyBudget
            .Of([
                .. OneReading(gauge, stepWritten),
                .. Some(TakenForWant.ZeroTaken(gauge)),
                .. Some(TakenForWant.ScatterTaken(gauge, GaugeStep.Of(gauge, stepWritten), 1)),
            ])
            .Combined.Value;
        return recorded >= registered
            ? null
            : UncertaintyContribution.Calibration(
                Length.FromMillimetres(RootOfDifference(registered.Millimetres, recorded.Millimetres)),
                coverageFactor: 1m
            );
    }

    /// <summary>Standard uncertainty of one reading by the record's word, the step that is shown left out.</summary>
    public static Length WithoutStep(Instrument gauge, Length stepWritten) =>
        UncertaintyBudget.Of([.. OneReading(gauge, stepWritten)]).Combined.Value;

    private static IEnumerable<UncertaintyContribution> OneReading(Instrument gauge, Length stepWritten) =>
        [.. ByRecord(gauge, Length.Zero, stepWritten, workshop: null), .. Scattering(gauge, 1)];

    // Rounded up, so that the sum of both is never less than the register has.
    private static decimal RootOfDifference(decimal more, decimal less) =>
        decimal.Ceiling((decimal)Math.Sqrt((double)((more * more) - (less * less))) * 10_000_000m)
        / 10_000_000m;

    private static IEnumerable<UncertaintyContribution> ByRecord(
        Instrument gauge,
        Length length,
        Length stepWritten,
        Temperature? workshop
    )
    {
        if (gauge.Calibration is { } calibration)
        {
            yield return calibration.Contribution;
        }
        else
        {
            yield return UncertaintyContribution.NotCalibrated(GaugeStep.Of(gauge, stepWritten));
        }

        if (gauge.ZeroCheck is not null)
        {
            yield return ZeroChecked(gauge);
        }

        if (workshop is { } temperature)
        {
            foreach (var line in ThermalExpansion.SteelWithSteel(temperature).Of(length))
            {
                yield return line;
            }
        }
    }

    /// <summary>
    /// What is left of a zero whose stated error is taken out of every reading: half of what two checks are apart, and the step in
    /// which the error was read, together no more than is taken of a zero that nobody checked. Of a zero further off than a
    /// fit one may be all of the error: what such a gauge shows out is out as it was read and corrected.
    /// </summary>
    private static UncertaintyContribution ZeroChecked(Instrument gauge) =>
        !StatedZero.HasScale(gauge.Kind) || StatedZero.Largest(gauge) > MostZeroError(gauge.Kind)
            ? UncertaintyContribution.ZeroFarOff(StatedZero.Largest(gauge))
            : UncertaintyContribution.ZeroCheck(
                StatedZero.HalfApart(gauge),
                StatedZero.StepRead(gauge),
                MostZeroError(gauge.Kind)
            );

    private static IEnumerable<UncertaintyContribution> Repeating(Instrument gauge, int readings)
    {
        if (!gauge.RepeatabilityStudies.IsEmpty)
        {
            var pooled = PooledDeviation.Of([
                .. gauge.RepeatabilityStudies.Select(study =>
                    (study.Deviation.Value.Abs, study.DegreesOfFreedom)
                ),
            ]);
            yield return UncertaintyContribution.Repeatability(
                pooled.StandardDeviation,
                pooled.DegreesOfFreedom,
                readings
            );
        }
        else if (gauge.Repeatability is { } repeatability)
        {
            yield return UncertaintyContribution.Repeatability(
                repeatability.Value.Abs,
                DegreesOfFreedom.Infinite,
                readings
            );
        }
    }

    /// <summary>A drift is not common to the first reading and the last: it stays in their difference.</summary>
    private static IEnumerable<UncertaintyContribution> Drifting(Instrument gauge)
    {
        if (Drift(gauge) is { } drift)
        {
            yield return UncertaintyContribution.WithinHalfWidth(UncertaintySource.ZeroDrift, drift);
        }
    }

    /// <summary>How far the zero moved between the check before the job and the one after it.</summary>
    public static Length? Drift(Instrument gauge) =>
        gauge is { ZeroCheck: { } before, ZeroCheckAfter: { } after }
            ? (after.Error.Value - before.Error.Value).Abs
            : null;

    /// <summary>Whether the zero moved by more than a zero may be off.</summary>
    public static bool HasDrifted(Instrument gauge) => Drift(gauge) > MostZeroError(gauge.Kind);

    /// <summary>Whether a zero check came out further off than a zero may be.</summary>
    public static bool IsOff(Instrument gauge, ZeroCheck? check) =>
        check?.Error.Value.Abs > MostZeroError(gauge.Kind);

    /// <summary>
    /// How far off the zero of a gauge may be, whatever step it shows: one step of the ordinary gauges of the trade, of a tape a
    /// tenth of a millimetre or 0.005 in (common practice, no source). Were it a step of the gauge itself, a coarser gauge would
    /// prove with a zero that a finer one may not have.
    /// </summary>
    public static Length MostZeroError(InstrumentKind kind) =>
        Length.FromInches(kind is InstrumentKind.DiameterTape ? 0.005m : 0.0005m);
}
