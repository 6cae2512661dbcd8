namespace ServiceRules.Domain.Measurement;

/// <summary>
/// The part of a reading's uncertainty that is one and the same error in every reading of one cause: the calibration and
/// zero of the gauge that took them (JCGM 100:2008, F.1.2.3).
/// </summary>
/// <param name="Uncertainty">Its standard uncertainty, part of the reading's own and not beside it.</param>
/// <param name="Cause">Which cause; readings of different causes share nothing.</param>
/// <param name="DegreesOfFreedom">How well it is known.</param>
public readonly record struct SharedError(
    StandardUncertainty Uncertainty,
    string Cause,
    DegreesOfFreedom DegreesOfFreedom = default
)
{
    /// <summary>
    /// How well the rest of the reading's uncertainty is known, which is its own; none where only the whole is known,
    /// whose degrees of freedom then count for the rest too.
    /// </summary>
    public DegreesOfFreedom? Rest { get; init; }

    // No gauge can be called that: an identity has no spaces.
    private const string NoGauge = "no gauge named";

    /// <summary>
    /// Nothing is shared. Readings that name no one gauge all stand under one cause on purpose: they may well have been taken
    /// with the same one, and then their scatter is one estimate, used as often as there are readings. A cause of its own for
    /// each would pool its degrees of freedom as if each had been found anew, which makes k too small.
    /// </summary>
    internal static SharedError None => InAll(StandardUncertainty.Zero);

    /// <summary>The same error in all of a set of readings.</summary>
    internal static SharedError InAll(StandardUncertainty uncertainty) => new(uncertainty, NoGauge);
}
