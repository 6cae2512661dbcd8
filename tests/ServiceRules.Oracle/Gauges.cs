using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Oracle;

/// <summary>What a gauge is worth, in millimetres.</summary>
internal static class Gauges
{
    public static bool IsUnfit(Instrument? gauge, Facts facts) =>
        gauge is not null
        && (
            gauge.Inspection?.Result == Condition.Faulty
            || (gauge.Calibration is { } c && (facts.WorkedDay < c.Date || facts.LastDay > Believed(c)))
            || (
                gauge.ZeroCheck is { } zero
                && (
                    Math.Abs(Mm(zero.Error)) > ZeroMayBeOff(gauge)
                    || Math.Abs(Mm(gauge.ZeroCheckAfter?.Error)) > ZeroMayBeOff(gauge)
                    || Math.Abs(Mm(gauge.ZeroCheckAfter?.Error ?? zero.Error) - Mm(zero.Error))
                        > ZeroMayBeOff(gauge)
                )
            )
        );

    /// <summary>Nobody's certificate is good for more than five years.</summary>
    private static DateOnly Believed(Calibration certificate) =>
        certificate.Date.AddYears(5) < certificate.Due ? certificate.Date.AddYears(5) : certificate.Due;

    /// <summary>Unfit, or not made for what was read with it.</summary>
    public static bool IsUnfit(Reading reading, Facts facts) =>
        IsUnfit(facts.Gauge(reading), facts)
        || (facts.Gauge(reading) is { } gauge && !Can(gauge.Kind, reading));

    private static bool Can(InstrumentKind kind, Reading reading)
    {
        string fits = reading.Quantity switch
        {
            MeasuredQuantity.Clearance => "feeler dial",
            MeasuredQuantity.HeightOfCut => "height dial depth calliper",
            MeasuredQuantity.GroomerHeight => "height dial depth calliper",
            MeasuredQuantity.FrontRoller => "height dial depth calliper",
            MeasuredQuantity.ShieldGap => "feeler calliper",
            MeasuredQuantity.BrushGap => "feeler calliper",
            MeasuredQuantity.ReelDiameter => "tape calliper micrometer dial",
            MeasuredQuantity.BedknifeLip => "calliper depth micrometer dial",
            MeasuredQuantity.LandWidth => "calliper micrometer",
            MeasuredQuantity.BearingPlay => "feeler dial",
            MeasuredQuantity.FrontRollerOnPlate => "feeler dial",
            MeasuredQuantity.RearRollerOnPlate => "feeler dial",
            _ => "",
        };
        string said = kind switch
        {
            InstrumentKind.FeelerGauge => "feeler",
            InstrumentKind.HeightGauge => "height",
            InstrumentKind.Calliper => "calliper",
            InstrumentKind.Micrometer => "micrometer",
            InstrumentKind.DiameterTape => "tape",
            InstrumentKind.DialGauge => "dial",
            InstrumentKind.DepthGauge => "depth",
            InstrumentKind.FixedSizePiece => "piece",
            _ => "nothing",
        };
        return reading.Observed switch
        {
            Observation.Measured => fits.Split(' ').Contains(said),
            Observation.FeelerTest => said == "piece" || (said == "feeler" && fits.Split(' ').Contains(said)),
            _ => true,
        };
    }

    /// <summary>0.0005 in, of a tape 0.005 in: the step that the gauge shows plays no part; what is equal to it is not off.</summary>
    private static double ZeroMayBeOff(Instrument gauge) =>
        (gauge.Kind == InstrumentKind.DiameterTape ? 0.127 : 0.0127) + 1e-9;

    public static bool IsUnknown(Instrument? gauge) =>
        gauge is null || gauge is { Calibration: null, ZeroCheck: null, Resolution: null };

    /// <summary>Squares of standard uncertainty: what one reading has of its own, and what all of them share.</summary>
    public static (double Own, double Shared) Squares(Instrument? gauge, PrintedLength print)
    {
        if (gauge is null)
        {
            return (0, 0);
        }

        double shown = Shown(gauge, print);
        double own = (shown * shown / 12) + Scatter(gauge).Square;
        if (gauge.Kind is not (InstrumentKind.FeelerGauge or InstrumentKind.FixedSizePiece))
        {
            // Who says nothing of the scatter is taken at half a step of it.
            own += SaysHowItRepeats(gauge) ? 0 : shown * shown / 4;
        }

        double shared = 0;
        if (gauge.Calibration is { } calibration)
        {
            shared += Math.Pow(Mm(calibration.ExpandedUncertainty) / (double)calibration.CoverageFactor, 2);
        }
        else
        {
            // Nobody compared its scale with anything: two of its steps either way.
            shared += Math.Pow(2 * shown, 2) / 3;
        }

        if (gauge.ZeroCheck is { } zero)
        {
            double before = Mm(zero.Error);
            double after = Mm(gauge.ZeroCheckAfter?.Error ?? zero.Error);
            double most = gauge.Kind == InstrumentKind.DiameterTape ? 0.127 : 0.0127;
            double largest = Math.Max(Math.Abs(before), Math.Abs(after));
            // The error itself is taken out of the reading; what the checks leave of it is not.
            double read = Math.Max(
                before == 0 ? 0 : Shown(gauge, zero.Error),
                after == 0 ? 0 : Shown(gauge, gauge.ZeroCheckAfter?.Error ?? zero.Error)
            );
            bool isFar =
                largest > ZeroMayBeOff(gauge)
                || gauge.Kind is InstrumentKind.FeelerGauge or InstrumentKind.FixedSizePiece;
            shared += isFar
                ? largest * largest / 3
                : Math.Min((Math.Pow((after - before) / 2, 2) / 3) + (read * read / 12), most * most / 3);
            own += Math.Pow(after - before, 2) / 3;
        }
        else if (gauge.Kind is not (InstrumentKind.FeelerGauge or InstrumentKind.FixedSizePiece))
        {
            shared += Math.Pow(gauge.Kind == InstrumentKind.DiameterTape ? 0.127 : 0.0127, 2) / 3;
        }

        return (own, shared);
    }

    private static bool SaysHowItRepeats(Instrument gauge) =>
        Mm(gauge.Repeatability) >= 0.0001
        || gauge.RepeatabilityStudies.Any(study => Mm(study.Deviation) >= 0.0001);

    /// <summary>Square of how it repeats: what studies found, each by its degrees of freedom, which are added.</summary>
    public static (double Square, double Degrees) Scatter(Instrument? gauge)
    {
        if (gauge is null || gauge.RepeatabilityStudies.IsEmpty)
        {
            return (Math.Pow(Mm(gauge?.Repeatability), 2), double.PositiveInfinity);
        }

        double degrees = gauge.RepeatabilityStudies.Sum(study => study.DegreesOfFreedom);
        return (
            gauge.RepeatabilityStudies.Sum(study =>
                study.DegreesOfFreedom * Math.Pow(Mm(study.Deviation), 2) / degrees
            ),
            degrees
        );
    }

    /// <summary>Square of what a certificate states and on how many degrees of freedom.</summary>
    public static (double Square, double Degrees) Certificate(Instrument? gauge) =>
        gauge?.Calibration is { } stated
            ? (
                Math.Pow(Mm(stated.ExpandedUncertainty) / (double)stated.CoverageFactor, 2),
                stated.DegreesOfFreedom ?? double.PositiveInfinity
            )
            : (0, double.PositiveInfinity);

    /// <summary>The step that a gauge shows, or else the last digit written down, which claims 0.01 mm, 0.0005 in at the least; a tape's ten times that.</summary>
    public static double Shown(Instrument? gauge, PrintedLength print)
    {
        if (gauge?.Resolution is { } resolution)
        {
            double finest = gauge.Kind switch
            {
                InstrumentKind.DiameterTape or InstrumentKind.FeelerGauge => 0.01,
                InstrumentKind.Calliper => 0.001,
                _ => 0.0001,
            };
            return Math.Max((double)resolution.Value.Millimetres, finest);
        }

        bool isTape = gauge?.Kind == InstrumentKind.DiameterTape;
        double claimed = print.System == UnitSystem.Inch ? 0.0127 : 0.01;
        return Math.Max(2 * (double)print.RoundingHalfWidth.Millimetres, isTape ? 10 * claimed : claimed);
    }

    /// <summary>What a reading is worth once the error of its gauge's zero is out of it: one check, or midway between two.</summary>
    public static decimal Right(Instrument? gauge, PrintedLength print)
    {
        decimal read = print.Value.Millimetres;
        if (
            gauge?.ZeroCheck is not { } zero
            || gauge.Kind is InstrumentKind.FeelerGauge or InstrumentKind.FixedSizePiece
        )
        {
            return read;
        }

        decimal before = zero.Error.Value.Millimetres;
        decimal after = gauge.ZeroCheckAfter?.Error.Value.Millimetres ?? before;
        return read - ((before + after) / 2);
    }

    private static double Mm(PrintedLength? length) => length is null ? 0 : (double)length.Value.Millimetres;
}
