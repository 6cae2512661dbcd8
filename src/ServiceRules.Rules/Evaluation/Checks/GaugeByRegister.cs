using System.Globalization;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Rules.Evaluation.Bench;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>What the record says of a gauge held against what the site's register says of it.</summary>
internal static class GaugeByRegister
{
    // A record seldom states every part of what a gauge may be off by; half of what the site knows is no rounding.
    private const int Times = 2;

    /// <summary>
    /// Whether the site keeps a register and does not have the gauge in it. Feelers, plates and strips are inspected or
    /// replaced, and not every site registers them; a piece of fixed size is held against a gauge to be true.
    /// </summary>
    private static bool IsMissing(Instrument gauge) =>
        gauge is { Register.Entry: null } and { Register: not null }
        && gauge.Kind
            is InstrumentKind.HeightGauge
                or InstrumentKind.Calliper
                or InstrumentKind.Micrometer
                or InstrumentKind.DiameterTape
                or InstrumentKind.DialGauge
                or InstrumentKind.DepthGauge
                or InstrumentKind.AngleGauge
                or InstrumentKind.FixedSizePiece;

    /// <summary>That the record and the register call it by different kinds; null where they do not.</summary>
    public static string? OtherKind(Instrument gauge) =>
        gauge.Register?.Entry is { } entry && entry.Kind != gauge.Kind
            ? $"The record calls gauge {gauge.Id} {GaugeKindWords.One(gauge.Kind)}, the register {GaugeKindWords.One(entry.Kind)}: it proves only what both can read."
            : null;

    /// <summary>
    /// That the register does not have it; or where step or uncertainty by the record and by the register contradict one another,
    /// both; else null.
    /// </summary>
    public static string? Differing(Instrument gauge)
    {
        if (gauge.Register?.Entry is not { } entry)
        {
            return IsMissing(gauge)
                ? $"the register of gauges does not have {gauge.Id}: what is known of it is the record's word alone{Span(gauge)}"
                : null;
        }

        var parts = new List<string>();
        if (gauge.Resolution is { } step && step.Value.Abs != entry.Resolution.Value.Abs)
        {
            parts.Add($"a step of {step}, the register {entry.Resolution}");
        }

        var stated = gauge.Calibration?.ExpandedUncertainty;
        if (
            stated is not null
            && ByRecord(gauge, entry.Resolution.Value.Abs) * Times < entry.ExpandedUncertainty.Value.Abs
        )
        {
            parts.Add(
                $"U = {stated} (k = {gauge.Calibration!.CoverageFactor.ToString(CultureInfo.InvariantCulture)}) by its certificate, the register {entry.ExpandedUncertainty} (k = 2)"
            );
        }

        return parts.Count == 0
            ? null
            : $"of gauge {gauge.Id} the record has {string.Join("; ", parts)}: the worse of each counts";
    }

    /// <summary>That a certificate claims to hold for longer than any is believed.</summary>
    public static string TooLong(Calibration certificate) =>
        $"the certificate of {Day(certificate.Date)} claims to hold until {Day(certificate.Due)}: none is believed for longer than five years, until {Day(certificate.HoldsUntil)} (common practice, no source)";

    private static string Span(Instrument gauge) =>
        gauge.Calibration is { IsTooLong: true } certificate ? $"; {TooLong(certificate)}" : string.Empty;

    private static string Day(DateOnly date) => date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    /// <summary>U (k = 2) of one reading by the record, without the step.</summary>
    private static Length ByRecord(Instrument gauge, Length step) =>
        GaugeFindings.WithoutStep(gauge, step) * Times;
}
