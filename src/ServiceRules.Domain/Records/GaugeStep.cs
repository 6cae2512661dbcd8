using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Records;

/// <summary>
/// The step that is taken of a gauge: the one it states, no finer than gauges of its kind show; where it states none, the last
/// digit written down, no finer than the ordinary gauges of the trade show. Neither a number in a form nor digits written down cost
/// anything: without a least, either would prove what no gauge can.
/// </summary>
public static class GaugeStep
{
    private const decimal FinestMillimetres = 0.0001m;
    private const decimal FinestOfACalliper = 0.001m;
    private const decimal FinestOfCoarseKinds = 0.01m;

    /// <summary>
    /// The finest step that any gauge of a kind shows, in every unit the same length: 0.0001 mm, of a calliper 0.001 mm, of a tape
    /// and between two feelers of a set 0.01 mm (common practice, no source).
    /// </summary>
    /// <param name="kind">The kind.</param>
    public static Length FinestOf(InstrumentKind kind) =>
        Length.FromMillimetres(
            kind switch
            {
                InstrumentKind.DiameterTape or InstrumentKind.FeelerGauge => FinestOfCoarseKinds,
                InstrumentKind.Calliper => FinestOfACalliper,
                _ => FinestMillimetres,
            }
        );

    /// <summary>Whether a step is stated that is finer than any gauge of the kind shows.</summary>
    /// <param name="stated">The step stated, if any.</param>
    /// <param name="kind">The kind of gauge.</param>
    public static bool IsTooFine(PrintedLength? stated, InstrumentKind kind) =>
        stated?.Value.Abs < FinestOf(kind);

    /// <summary>A stated step as far as it is believed.</summary>
    /// <param name="stated">The step stated.</param>
    /// <param name="kind">The kind of gauge.</param>
    public static Length Believed(PrintedLength stated, InstrumentKind kind) =>
        Length.Max(stated.Value.Abs, FinestOf(kind));

    /// <summary>The step by the digits written down, 0.01 mm or 0.0005 in at the least, of a tape ten times that (common practice, no source).</summary>
    /// <param name="print">What was written down.</param>
    /// <param name="kind">The kind of gauge; null where none is named.</param>
    public static Length Written(PrintedLength print, InstrumentKind? kind) =>
        Length.Max(print.RoundingHalfWidth * 2, LeastWritten(print.System, kind));

    /// <summary>The least step that digits written down can claim: 0.01 mm or 0.0005 in, of a tape ten times that (common practice, no source).</summary>
    /// <param name="system">The units written in.</param>
    /// <param name="kind">The kind of gauge; null where none is named.</param>
    public static Length LeastWritten(UnitSystem system, InstrumentKind? kind) =>
        (system is UnitSystem.Metric ? Length.FromMillimetres(0.01m) : Length.FromInches(0.0005m))
        * (kind is InstrumentKind.DiameterTape ? 10 : 1);

    /// <summary>
    /// The step of a gauge; where it states none, by the digits written down; never finer than the site's register has it.
    /// </summary>
    /// <param name="gauge">The gauge.</param>
    /// <param name="written">The step by the digits written down.</param>
    public static Length Of(Instrument gauge, Length written)
    {
        var byRecord = gauge.Resolution is { } stated ? Believed(stated, gauge.Kind) : written;
        return ByRegister(gauge) is { } registered ? Length.Max(byRecord, registered) : byRecord;
    }

    /// <summary>The step that the site's register has of a gauge, as far as it is believed; null where it has none.</summary>
    /// <param name="gauge">The gauge.</param>
    public static Length? ByRegister(Instrument gauge) =>
        gauge.Register?.Entry is { } entry ? Believed(entry.Resolution, entry.Kind) : null;

    /// <summary>The step of a gauge by one length that was read with it.</summary>
    /// <param name="gauge">The gauge.</param>
    /// <param name="print">What was read.</param>
    public static Length Of(Instrument gauge, PrintedLength print) => Of(gauge, Written(print, gauge.Kind));
}
