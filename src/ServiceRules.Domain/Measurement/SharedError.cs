namespace ServiceRules.Domain.Measurement;

/// <summary>
/// The part of a reading's uncertainty that is one and the same error in every reading of one cause: the calibration and
/// zero of the gauge that took them (JCGM 100:2008, F.1.2.3).
/// </summary>
/// <param name="Uncertainty">Its standard uncertainty, part of the reading's own and not beside it.</param>
/// <param name="Cause">Which cause; readings of different causes share nothing.</param>
public readonly record struct SharedError(StandardUncertainty Uncertainty, string Cause)
{
    /// <summary>The same error in all of a set of readings.</summary>
    internal static SharedError InAll(StandardUncertainty uncertainty) => new(uncertainty, "all");
}
