using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Records;

/// <summary>
/// What the zero checks of a gauge state of its error, by the record's word alone: an error of known sign is taken out of every
/// length that is read with it (JCGM 100:2008, 3.2.4, F.2.4.5), and what is left is how well the checks know it.
/// </summary>
public static class StatedZero
{
    /// <summary>
    /// Whether gauges of a kind have a zero that can be set and a scale that is read. Feelers, pieces of fixed size, plates and
    /// strips have neither.
    /// </summary>
    /// <param name="kind">The kind.</param>
    public static bool HasScale(InstrumentKind kind) =>
        kind
            is InstrumentKind.HeightGauge
                or InstrumentKind.Calliper
                or InstrumentKind.Micrometer
                or InstrumentKind.DialGauge
                or InstrumentKind.DepthGauge
                or InstrumentKind.DiameterTape;

    /// <summary>
    /// How much too high it reads: the error that its zero check states, of a check before the job and one after it the mean;
    /// nothing where none is stated, or the gauge has no scale. Exact.
    /// </summary>
    /// <param name="gauge">The gauge; none where none is named.</param>
    public static Length ErrorOf(Instrument? gauge) =>
        gauge switch
        {
            { ZeroCheck: { } before } when HasScale(gauge.Kind) => gauge.ZeroCheckAfter is { } after
                ? (before.Error.Value + after.Error.Value) * 0.5m
                : before.Error.Value,
            _ => Length.Zero,
        };

    /// <summary>Half of what two checks are apart: how far the error may be from their mean; nothing of one.</summary>
    /// <param name="gauge">The gauge.</param>
    public static Length HalfApart(Instrument gauge) => HalfMoved(gauge).Abs;

    /// <summary>Half of how far the error moved from the check before the job to the one after it, with its sign; nothing of one check.</summary>
    /// <param name="gauge">The gauge.</param>
    public static Length HalfMoved(Instrument gauge)
    {
        ArgumentNullException.ThrowIfNull(gauge);
        return gauge is { ZeroCheck: { } before, ZeroCheckAfter: { } after }
            ? (after.Error.Value - before.Error.Value) * 0.5m
            : Length.Zero;
    }

    /// <summary>The largest error that a check states, whatever its sign.</summary>
    /// <param name="gauge">The gauge.</param>
    public static Length Largest(Instrument gauge)
    {
        ArgumentNullException.ThrowIfNull(gauge);
        return Length.Max(SizeOf(gauge.ZeroCheck), SizeOf(gauge.ZeroCheckAfter));
    }

    /// <summary>
    /// The step in which the error was read off the gauge, the coarsest of its checks. An error of nothing was set and not read:
    /// of such checks alone, nothing.
    /// </summary>
    /// <param name="gauge">The gauge.</param>
    public static Length StepRead(Instrument gauge)
    {
        ArgumentNullException.ThrowIfNull(gauge);
        return Length.Max(StepOf(gauge.ZeroCheck, gauge), StepOf(gauge.ZeroCheckAfter, gauge));
    }

    private static Length SizeOf(ZeroCheck? check) => check?.Error.Value.Abs ?? Length.Zero;

    private static Length StepOf(ZeroCheck? check, Instrument gauge) =>
        check is { } stated && stated.Error.Value != Length.Zero
            ? GaugeStep.Of(gauge, stated.Error)
            : Length.Zero;
}
