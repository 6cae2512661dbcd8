using ServiceRules.Domain.Records;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>What a gauge of lengths leaves unsaid, so that nothing is counted for it: it is told once, and changes no verdict.</summary>
internal static class GaugeSilence
{
    public static IEnumerable<string> Told(IEnumerable<Instrument> gauges) =>
        gauges.Select(Told).OfType<string>();

    private static string? Told(Instrument gauge)
    {
        var ofZero = gauge is { Calibration: not null, ZeroCheck: null } && IsZeroed(gauge.Kind);
        var ofScatter =
            !StatedScatter.IsStated(gauge)
            && (IsZeroed(gauge.Kind) || gauge.Kind is InstrumentKind.DiameterTape);
        var none = StatedScatter.SaysNothing(gauge) is { } stated
            ? $"no repeatability ({stated} is none)"
            : "no repeatability";
        return (ofZero, ofScatter) switch
        {
            (true, true) =>
                $"gauge {gauge.Id} states no zero check and {none}: nothing is counted for its zero, nor for how its readings scatter",
            (true, false) => $"gauge {gauge.Id} states no zero check: nothing is counted for its zero",
            (false, true) =>
                $"gauge {gauge.Id} states {none}: nothing is counted for how its readings scatter",
            _ => null,
        };
    }

    /// <summary>A tape and a piece of fixed size have no zero to set.</summary>
    private static bool IsZeroed(InstrumentKind kind) =>
        kind
            is InstrumentKind.HeightGauge
                or InstrumentKind.Calliper
                or InstrumentKind.Micrometer
                or InstrumentKind.DialGauge
                or InstrumentKind.DepthGauge;
}
