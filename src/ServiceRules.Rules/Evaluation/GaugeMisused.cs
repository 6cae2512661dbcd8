using ServiceRules.Domain.Records;

namespace ServiceRules.Rules.Evaluation;

/// <summary>A gauge that was held to what it cannot read, by its kind or by the site's register.</summary>
/// <param name="Gauge">The gauge.</param>
/// <param name="Quantity">What was read with it.</param>
/// <param name="Observed">How.</param>
public sealed record GaugeMisused(Instrument Gauge, MeasuredQuantity Quantity, Observation Observed)
{
    /// <summary>Of a gauge that reads the quantity so there is nothing to tell.</summary>
    /// <param name="gauge">The gauge.</param>
    /// <param name="quantity">What was read with it.</param>
    /// <param name="observed">How.</param>
    public static GaugeMisused? Of(Instrument gauge, MeasuredQuantity quantity, Observation observed)
    {
        ArgumentNullException.ThrowIfNull(gauge);
        // Contact and conditions are not read off anything; a strip is told apart where its paper is judged.
        if (observed is not (Observation.Measured or Observation.FeelerTest))
        {
            return null;
        }

        var entry = gauge.Register?.Entry;
        return
            !IsOfManySizes(gauge, observed)
            && InstrumentReach.Reads(gauge.Kind, quantity, observed)
            && (
                entry is null
                || (
                    InstrumentReach.Reads(entry.Kind, quantity, observed) && entry.Measures.Contains(quantity)
                )
            )
            ? null
            : new(gauge, quantity, observed);
    }

    /// <summary>What is said of it beside a verdict.</summary>
    public string Words
    {
        get
        {
            var quantity = Wording.Of(Quantity);
            var kinds = InstrumentReach.KindsFor(Quantity, Observed);
            var does = kinds.IsEmpty ? "nothing reads it" : $"{GaugeKindWords.AnyOf(kinds)} does";
            return IsOfManySizes(Gauge, Observed)
                    ? $"gauge {Gauge.Id} is a piece of fixed size and was tried as {string.Join(" and ", Gauge.SizesTried)}: it has one size, so that it proves nothing in; enter each piece as a gauge of its own"
                : !InstrumentReach.Reads(Gauge.Kind, Quantity, Observed)
                    ? $"gauge {Gauge.Id} is {GaugeKindWords.One(Gauge.Kind)}, which cannot read {quantity}{How}{Why}, so that it proves nothing in: {does} (common practice, no source)"
                : Gauge.Register!.Entry is { } entry && !InstrumentReach.Reads(entry.Kind, Quantity, Observed)
                    ? $"gauge {Gauge.Id} is {GaugeKindWords.One(entry.Kind)} by the register, which cannot read {quantity}{How}{Why}, so that it proves nothing in: {does} (common practice, no source)"
                : $"the register keeps gauge {Gauge.Id} for {string.Join(", ", Gauge.Register!.Entry!.Measures.Select(Wording.Of))}, and not for {quantity}, so that it proves nothing in: use one that is registered for it, or put the register right";
        }
    }

    private static bool IsOfManySizes(Instrument gauge, Observation observed) =>
        observed is Observation.FeelerTest && gauge.SizesTried.Length > 1;

    // A piece tells whether it passes, and shows no length.
    private string Why =>
        Gauge.Kind is InstrumentKind.FixedSizePiece && Observed is Observation.Measured
            ? " as a length: it passes or does not, at its own size"
            : string.Empty;

    private string How => Observed is Observation.FeelerTest ? " by passing or not" : string.Empty;
}
