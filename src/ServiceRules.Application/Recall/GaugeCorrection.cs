using System.Collections.Immutable;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Rules.Evaluation;

namespace ServiceRules.Application.Recall;

/// <summary>
/// A record as it would read had the gauge been right: every reading with it less the error, and the doubt of the
/// error added to the doubt of the gauge (JCGM 100:2008, 5.1.2). Nothing else of the record is touched.
/// </summary>
public sealed class GaugeCorrection(FoundError found)
{
    // Some nanometres at most, a hundredth of what any gauge here shows, and within the digits that a print keeps.
    private const int Decimals = 7;

    private const decimal FactorOfError = 2m;

    /// <summary>The corrected record.</summary>
    /// <param name="record">As written down.</param>
    /// <param name="share">How much of the error was there: 1 is all of it.</param>
    public ServiceRecord Of(ServiceRecord record, decimal share)
    {
        // The record's own zero check may have stated a part of the error, which is taken out already; the whole of it takes its place.
        var stated = StatedZero.ErrorOf(
            record.Instruments.FirstOrDefault(gauge => gauge.Id == found.Instrument)
        );
        var error = stated + ((found.Error.Value - stated) * share);
        return record with
        {
            Instruments =
            [
                .. record.Instruments.Select(gauge =>
                    gauge.Id == found.Instrument ? Corrected(gauge, record) : gauge
                ),
            ],
            Units =
            [
                .. record.Units.Select(unit =>
                    unit with
                    {
                        Entries =
                        [
                            .. unit.Entries.Select(
                                (entry, index) =>
                                    IsReadWith(unit.Entries, index) ? Corrected(entry, error) : entry
                            ),
                        ],
                    }
                ),
            ],
        };
    }

    /// <summary>Whether an entry was read with the gauge, or states a size that was.</summary>
    public bool IsReadWith(ImmutableArray<BenchEntry> entries, int index) =>
        entries[index] switch
        {
            Reading { Observed: Observation.FeelerTest test } reading => reading.Instrument
                == found.Instrument
                && test.Feelers.Any(IsWrong),
            Reading { Observed: Observation.Measured } reading => reading.Instrument == found.Instrument,
            Grinding => SizeGauge.Of(entries, index) == found.Instrument,
            _ => false,
        };

    private BenchEntry Corrected(BenchEntry entry, Length error) =>
        entry switch
        {
            Reading { Observed: Observation.Measured measured } reading => reading with
            {
                Observed = new Observation.Measured(Less(measured.Value, error)),
            },
            Reading { Observed: Observation.FeelerTest test } reading => reading with
            {
                Observed = test with
                {
                    Feelers = [.. test.Feelers.Select(leaf => IsWrong(leaf) ? Less(leaf, error) : leaf)],
                },
            },
            Grinding grinding => grinding with
            {
                Before = grinding.Before is { } before ? Less(before, error) : null,
                After = grinding.After is { } after ? Less(after, error) : null,
            },
            _ => entry,
        };

    private bool IsWrong(PrintedLength leaf) => found.Leaf is null || found.Leaf.Value == leaf.Value;

    private Instrument Corrected(Instrument gauge, ServiceRecord record)
    {
        // A gauge of which nothing is known proves nothing, corrected or not.
        if (gauge is { Calibration: null, ZeroCheck: null, Resolution: null, Tolerance: null })
        {
            return gauge;
        }

        var isMarked = gauge.Kind is InstrumentKind.FeelerGauge or InstrumentKind.FixedSizePiece;
        // Corrected readings have more digits than were read.
        var resolution = gauge.Resolution ?? (isMarked ? null : StepRead(gauge, record));
        return gauge with
        {
            // The error has been taken out of the readings, and is not to be taken out again for the zero check: had the gauge been
            // right, its zero check had been, and what the zero moved during the job it moved all the same, about that.
            ZeroCheck = Moved(gauge.ZeroCheck, -StatedZero.HalfMoved(gauge)),
            ZeroCheckAfter = Moved(gauge.ZeroCheckAfter, StatedZero.HalfMoved(gauge)),
            Resolution = resolution,
            Calibration = isMarked ? gauge.Calibration : Doubted(gauge, resolution, record.Date),
            Tolerance =
                isMarked && gauge.Tolerance is { } tolerance && found.Uncertainty is { } doubt
                    ? Print(tolerance.Value.Abs + doubt.Value.Abs, tolerance.Unit)
                    : gauge.Tolerance,
        };
    }

    private Calibration? Doubted(Instrument gauge, PrintedLength? resolution, DateOnly day)
    {
        var calibration = gauge.Calibration;
        if (found.Uncertainty is not { } doubt || doubt.Value == Length.Zero)
        {
            return calibration;
        }

        var added = UncertaintyContribution.Calibration(doubt.Value.Abs, FactorOfError);
        if (calibration is null)
        {
            // A gauge that was found out is no better known than one that was not.
            var scale = UncertaintyContribution.NotCalibrated(
                resolution is { } step ? GaugeStep.Believed(step, gauge.Kind) : Length.Zero
            );
            return new(day, day, Print(Both(scale, added), doubt.Unit), FactorOfError);
        }

        // A certificate may state a level instead of k; the sum of both doubts has k alone.
        return new(
            calibration.Date,
            calibration.Due,
            Print(
                Both(
                    UncertaintyContribution.Calibration(
                        calibration.ExpandedUncertainty.Value.Abs,
                        calibration.CoverageFactor
                    ),
                    added
                ),
                calibration.ExpandedUncertainty.Unit
            ),
            FactorOfError
        )
        {
            DegreesOfFreedom = calibration.DegreesOfFreedom,
        };
    }

    private static Length Both(UncertaintyContribution one, UncertaintyContribution other) =>
        UncertaintyBudget.Of(one, other).Combined.Value * FactorOfError;

    private static ZeroCheck? Moved(ZeroCheck? check, Length error) =>
        check is null ? null : check with { Error = Print(error, check.Error.Unit) };

    private PrintedLength? StepRead(Instrument gauge, ServiceRecord record)
    {
        PrintedLength[] prints =
        [
            .. record
                .Units.SelectMany(unit => unit.Entries)
                .OfType<Reading>()
                .Where(reading => reading.Instrument == found.Instrument)
                .Select(reading => (reading.Observed as Observation.Measured)?.Value)
                .OfType<PrintedLength>()
                .OrderByDescending(print => print.RoundingHalfWidth),
        ];
        return prints is [var coarsest, ..]
            ? Print(prints.Max(print => GaugeStep.Written(print, gauge.Kind)), coarsest.Unit)
            : null;
    }

    private static PrintedLength Less(PrintedLength print, Length error) =>
        error == Length.Zero ? print : Print(print.Value - error, print.Unit);

    private static PrintedLength Print(Length length, LengthUnit unit) =>
        PrintedLength.Of(decimal.Round(length.Millimetres / One(unit).Millimetres, Decimals), unit).OrThrow();

    private static Length One(LengthUnit unit) => PrintedLength.Of(1m, unit).OrThrow().Value;
}
