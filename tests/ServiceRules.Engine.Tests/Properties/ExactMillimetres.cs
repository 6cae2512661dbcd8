using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Rules.Model;

namespace ServiceRules.Engine.Tests.Properties;

/// <summary>A record in inches told in millimetres without rounding, and sheets with one figure for each limit.</summary>
internal static class ExactMillimetres
{
    public static ServiceRecord Of(ServiceRecord record) =>
        record with
        {
            Instruments = [.. record.Instruments.Select(Of)],
            Units = [.. record.Units.Select(unit => unit with { Entries = [.. unit.Entries.Select(Of)] })],
        };

    /// <summary>The governing figures alone.</summary>
    public static LimitSheet OneFigure(LimitSheet sheet) =>
        sheet with
        {
            ReelDiameter = One(sheet.ReelDiameter)!,
            Width = One(sheet.Width)!,
            Adjusters =
            [
                .. sheet.Adjusters.Select(adjuster =>
                    adjuster with
                    {
                        Step = One(adjuster.Step),
                        Disturbs =
                        [
                            .. adjuster.Disturbs.Select(one =>
                                one with
                                {
                                    ShiftPerStep = One(one.ShiftPerStep),
                                }
                            ),
                        ],
                    }
                ),
            ],
            Quantities = [.. sheet.Quantities.Select(OneFigure)],
        };

    private static QuantityLimit OneFigure(QuantityLimit limit) =>
        limit with
        {
            Lower = One(limit.Lower),
            Upper = One(limit.Upper),
            Target = One(limit.Target),
            ToleranceAboutTarget = One(limit.ToleranceAboutTarget),
            SideToSide = One(limit.SideToSide),
            AcrossUnits = One(limit.AcrossUnits),
            AdjacentEnds = One(limit.AdjacentEnds),
            Parallelism = One(limit.Parallelism),
            Taper = One(limit.Taper),
            Barrel = One(limit.Barrel),
            Twist = One(limit.Twist),
            WornBelow = One(limit.WornBelow),
            Schools =
            [
                .. limit.Schools.Select(s => new SchoolProcedure(s.School, One(s.Passes), One(s.Stops))),
            ],
        };

    private static DualPrint? One(DualPrint? print) => print is null ? null : DualPrint.Of(print.Governing);

    private static Instrument Of(Instrument gauge) =>
        gauge with
        {
            Resolution = Of(gauge.Resolution),
            Tolerance = Of(gauge.Tolerance),
            Repeatability = Of(gauge.Repeatability),
            Calibration = gauge.Calibration is { } calibration
                ? calibration with
                {
                    ExpandedUncertainty = Of(calibration.ExpandedUncertainty)!,
                }
                : null,
            ZeroCheck = gauge.ZeroCheck is { } zero ? zero with { Error = Of(zero.Error)! } : null,
        };

    private static BenchEntry Of(BenchEntry entry) =>
        entry switch
        {
            Reading { Observed: Observation.Measured measured } reading => reading with
            {
                Observed = measured with { Value = Of(measured.Value)! },
            },
            Reading { Observed: Observation.FeelerTest test } reading => reading with
            {
                Observed = test with { Feelers = [.. test.Feelers.Select(feeler => Of(feeler)!)] },
            },
            Adjustment { Amount: AdjustmentAmount.Distance far } turned => turned with
            {
                Amount = new AdjustmentAmount.Distance(Of(far.Value)!),
            },
            _ => entry,
        };

    private static PrintedLength? Of(PrintedLength? length) =>
        length is null ? null
        : PrintedLength.Of(length.Value.Millimetres, LengthUnit.Millimetre).TryGet(out var print, out _)
            ? print
        : throw new FormatException($"{length} cannot be told in millimetres");
}
