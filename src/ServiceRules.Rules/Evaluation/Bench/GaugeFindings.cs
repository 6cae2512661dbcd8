using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Rules.Evaluation.Bench;

/// <summary>What a gauge contributes to the uncertainty of a reading, and whether it may prove anything at all.</summary>
internal static class GaugeFindings
{
    /// <summary>
    /// Why readings with this gauge cannot prove anything: it failed an inspection, its calibration is not in force on
    /// the day, or its zero check came out further off than the gauge can show. None when there is no such reason.
    /// </summary>
    public static FindingReason Unfitness(Instrument gauge, DateOnly day)
    {
        var failed = gauge.Inspection is { Result: Condition.Faulty };
        var outOfDate =
            gauge.Calibration is { } calibration && (calibration.Due < day || calibration.Date > day);
        var zeroOff =
            gauge.ZeroCheck is { } check && check.Error.Value.Abs > SmallestStep(gauge, check.Error);
        return failed || outOfDate || zeroOff ? FindingReason.GaugeUnfit : FindingReason.None;
    }

    /// <summary>Why a length read with this gauge (or with none named) cannot prove anything, or None.</summary>
    public static FindingReason DoubtOfLength(Instrument? gauge, DateOnly day)
    {
        if (gauge is null)
        {
            return FindingReason.UncertaintyUnknown;
        }

        var unfit = Unfitness(gauge, day);
        var nothingKnown =
            gauge is { Calibration: null, ZeroCheck: null, Resolution: null }
            && !(gauge.Kind is InstrumentKind.FixedSizePiece && gauge.Tolerance is not null);
        return unfit != FindingReason.None ? unfit
            : nothingKnown ? FindingReason.UncertaintyUnknown
            : FindingReason.None;
    }

    /// <summary>
    /// The standard uncertainty of the mean of readings with one gauge: calibration U/k, resolution (where the gauge states
    /// none, the digits that were written down; else they play no part, so that the same reading in other units is the
    /// same reading), the zero check's error as a half width, repeatability over the root of
    /// the number of readings.
    /// </summary>
    public static UncertaintyBudget BudgetOf(Instrument? gauge, Length coarsestPrint, int readings)
    {
        var step = gauge?.Resolution?.Value.Abs ?? (coarsestPrint * 2);
        List<UncertaintyContribution> lines = [UncertaintyContribution.Resolution(step)];
        if (gauge is not null)
        {
            lines.AddRange(Common(gauge));
        }

        if (gauge?.Repeatability is { } repeatability)
        {
            lines.Add(
                UncertaintyContribution.Repeatability(
                    repeatability.Value.Abs,
                    DegreesOfFreedom.Infinite,
                    readings
                )
            );
        }

        if (gauge is { Kind: InstrumentKind.FixedSizePiece, Tolerance: { } tolerance })
        {
            lines.Add(
                UncertaintyContribution.WithinHalfWidth(UncertaintySource.Thickness, tolerance.Value.Abs)
            );
        }

        return UncertaintyBudget.Of([.. lines]);
    }

    /// <summary>The part that all readings with one gauge have in common: its calibration and its zero.</summary>
    public static StandardUncertainty SharedBy(Instrument gauge) =>
        UncertaintyBudget.Of([.. Common(gauge)]).Combined;

    private static IEnumerable<UncertaintyContribution> Common(Instrument gauge)
    {
        if (gauge.Calibration is { } calibration)
        {
            yield return UncertaintyContribution.Calibration(
                calibration.ExpandedUncertainty.Value.Abs,
                calibration.CoverageFactor
            );
        }

        if (gauge.ZeroCheck is { } check)
        {
            yield return UncertaintyContribution.ZeroCheck(check.Error.Value.Abs);
        }
    }

    /// <summary>Smallest step the gauge shows; where it states none, the last digit of what was written down.</summary>
    private static Length SmallestStep(Instrument gauge, PrintedLength written) =>
        gauge.Resolution?.Value.Abs ?? (written.RoundingHalfWidth * 2);
}
