using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Rules.Evaluation.Bench;

/// <summary>
/// What is taken of a gauge that says nothing of its zero or of how it repeats, so that saying less never proves more. Of feelers and
/// pieces of fixed size nothing is: they have no zero to set and no scale to read.
/// </summary>
internal static class TakenForWant
{
    /// <summary>Whether the zero of the gauge can be checked, and a reading of it scatters, by the record's word or by the register's.</summary>
    public static bool HasScale(Instrument gauge) => Kinds(gauge).Exists(StatedZero.HasScale);

    private static List<InstrumentKind> Kinds(Instrument gauge) =>
        gauge.Register?.Entry is { } entry ? [gauge.Kind, entry.Kind] : [gauge.Kind];

    /// <summary>The most that a zero may be off, where no check of it is stated; none where one is.</summary>
    public static UncertaintyContribution? ZeroTaken(Instrument gauge) =>
        gauge.ZeroCheck is null && HasScale(gauge)
            ? UncertaintyContribution.ZeroUnchecked(MostZeroError(gauge))
            : null;

    /// <summary>The most that the zero may be off, by the kind that allows more.</summary>
    public static Length MostZeroError(Instrument gauge) => Kinds(gauge).Max(GaugeFindings.MostZeroError);

    /// <summary>Half a step as the deviation of one reading, where no repeatability is stated; none where one is.</summary>
    public static UncertaintyContribution? ScatterTaken(Instrument gauge, Length step, int readings) =>
        !StatedScatter.IsStated(gauge) && HasScale(gauge)
            ? UncertaintyContribution.RepeatabilityUnstated(step, readings)
            : null;
}
