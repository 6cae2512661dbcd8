using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Benchmarks;

/// <summary>
/// The limit rules as somebody would write them who needs nothing else: straight through the readings of one unit,
/// the last one at each side counts. It knows gauge uncertainty and the three verdicts, and leaves out all else:
/// what an adjustment made stale, the ends beyond the stations, probability, remedies, evidence, statements.
/// </summary>
internal static class PlainJudge
{
    private const decimal Far = 1_000_000m;

    public static SetUpFacts Facts(ServiceRecord record, AssessmentContext context, RuleBook book)
    {
        var unit = record.Units[0];
        var sheet = book.Sheet(unit.Sheet)!;
        var height = sheet.Of(MeasuredQuantity.HeightOfCut)!;
        var target = Target(record, context, unit.Sheet);
        var allowed = height.ToleranceAboutTarget!.Governing.Value.Millimetres;
        var (heightLeft, heightRight) = (
            Known(record, unit, MeasuredQuantity.HeightOfCut, StationName.Left),
            Known(record, unit, MeasuredQuantity.HeightOfCut, StationName.Right)
        );
        var reel = Known(record, unit, MeasuredQuantity.ReelDiameter, StationName.Middle);
        var diameter = sheet.Of(MeasuredQuantity.ReelDiameter)!;
        return new SetUpFacts(
            Against(
                sheet,
                MeasuredQuantity.Clearance,
                Known(record, unit, MeasuredQuantity.Clearance, StationName.Left)
            ),
            Against(
                sheet,
                MeasuredQuantity.Clearance,
                Known(record, unit, MeasuredQuantity.Clearance, StationName.Right)
            ),
            Against(sheet, MeasuredQuantity.HeightOfCut, heightLeft),
            Against(sheet, MeasuredQuantity.HeightOfCut, heightRight),
            new PlaceFact(heightLeft.Low, heightLeft.High, target - allowed, target + allowed),
            new PlaceFact(heightRight.Low, heightRight.High, target - allowed, target + allowed),
            Against(
                sheet,
                MeasuredQuantity.ShieldGap,
                Known(record, unit, MeasuredQuantity.ShieldGap, StationName.Left)
            ),
            Against(
                sheet,
                MeasuredQuantity.ShieldGap,
                Known(record, unit, MeasuredQuantity.ShieldGap, StationName.Right)
            ),
            Against(sheet, MeasuredQuantity.ReelDiameter, reel),
            new PlaceFact(reel.Low, reel.High, diameter.WornBelow!.In(reel.System).Millimetres, Far)
        );
    }

    public static IReadOnlyList<(string Rule, Verdict Verdict)> Verdicts(SetUpFacts facts) =>
        [
            (LimitRules.Clearance, Worst(Of(facts.ClearanceLeft), Of(facts.ClearanceRight))),
            (LimitRules.HeightInRange, Worst(Of(facts.RangeLeft), Of(facts.RangeRight))),
            (LimitRules.HeightOnTarget, Worst(Of(facts.TargetLeft), Of(facts.TargetRight))),
            (LimitRules.Shield, Worst(Of(facts.ShieldLeft), Of(facts.ShieldRight))),
            (LimitRules.ReelInService, Of(facts.ReelInService)),
            (LimitRules.ReelNotWorn, Of(facts.ReelNotWorn)),
        ];

    private static Verdict Of(PlaceFact fact)
    {
        if (fact.Low >= fact.Lower && fact.High <= fact.Upper)
        {
            return Verdict.Met;
        }

        return fact.High < fact.Lower || fact.Low > fact.Upper ? Verdict.NotMet : Verdict.Unproven;
    }

    private static Verdict Worst(Verdict one, Verdict other)
    {
        if (one == Verdict.NotMet || other == Verdict.NotMet)
        {
            return Verdict.NotMet;
        }

        return one == Verdict.Unproven || other == Verdict.Unproven ? Verdict.Unproven : Verdict.Met;
    }

    private static PlaceFact Against(
        LimitSheet sheet,
        MeasuredQuantity quantity,
        (decimal Low, decimal High, UnitSystem System) known
    )
    {
        var limit = sheet.Of(quantity)!;
        return new PlaceFact(
            known.Low,
            known.High,
            limit.Lower?.In(known.System).Millimetres ?? -Far,
            limit.Upper?.In(known.System).Millimetres ?? Far
        );
    }

    private static (decimal Low, decimal High, UnitSystem System) Known(
        ServiceRecord record,
        UnitWork unit,
        MeasuredQuantity quantity,
        StationName station
    )
    {
        var (low, high, system) = (-Far, Far, UnitSystem.Metric);
        foreach (var entry in unit.Entries)
        {
            if (
                entry is not Reading reading
                || reading.Quantity != quantity
                || reading.Phase == ReadingPhase.Found
                || reading.Station is not Station.Named named
                || named.Name != station
            )
            {
                continue;
            }

            var gauge = GaugeOf(record, reading);
            switch (reading.Observed)
            {
                case Observation.Measured measured:
                    var doubt = Doubt(gauge);
                    low = measured.Value.Value.Millimetres - doubt;
                    high = measured.Value.Value.Millimetres + doubt;
                    system = measured.Value.System;
                    break;
                case Observation.FeelerTest feeler:
                    var tolerance = gauge.Tolerance!.Value.Millimetres * feeler.Feelers.Length;
                    var thickness = 0m;
                    foreach (var leaf in feeler.Feelers)
                    {
                        thickness += leaf.Value.Millimetres;
                        system = leaf.System;
                    }

                    (low, high) = feeler.Passes
                        ? (thickness - tolerance, high)
                        : (low, thickness + tolerance);
                    break;
                default:
                    break;
            }
        }

        return (low, high, system);
    }

    private static Instrument GaugeOf(ServiceRecord record, Reading reading)
    {
        foreach (var instrument in record.Instruments)
        {
            if (instrument.Id == reading.Instrument)
            {
                return instrument;
            }
        }

        throw new InvalidOperationException("the record names a gauge that it does not list");
    }

    /// <summary>Two standard uncertainties: resolution as a rectangle, repeatability, calibration.</summary>
    private static decimal Doubt(Instrument gauge)
    {
        var resolution = (double)gauge.Resolution!.Value.Millimetres / Math.Sqrt(12);
        var repeatability = (double)(gauge.Repeatability?.Value.Millimetres ?? 0m);
        var calibration =
            (double)gauge.Calibration!.ExpandedUncertainty.Value.Millimetres
            / (double)gauge.Calibration.CoverageFactor;
        return 2m
            * (decimal)
                Math.Sqrt(
                    (resolution * resolution) + (repeatability * repeatability) + (calibration * calibration)
                );
    }

    private static decimal Target(ServiceRecord record, AssessmentContext context, string sheet)
    {
        foreach (var order in context.SettingOrders)
        {
            foreach (var target in order.Targets)
            {
                if (
                    target.Quantity == MeasuredQuantity.HeightOfCut
                    && target.Area == record.Machine.Area
                    && (target.Sheet is null || target.Sheet == sheet)
                )
                {
                    return target.Target.Value.Millimetres;
                }
            }
        }

        throw new InvalidOperationException("no target is in force");
    }
}
