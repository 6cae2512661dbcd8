using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Records;

/// <summary>
/// The tolerance that is taken of the feelers of a set: the one stated, no finer than feelers are made to. A number in a form
/// costs nothing: without a least, a feeler of no tolerance would be exact and prove what no feeler can.
/// </summary>
public static class FeelerTolerance
{
    /// <summary>
    /// The finest tolerance that any set of feelers is taken to be made to: 0.002 mm either way (common practice, no source; sets
    /// of the trade state 0.0001 in or 0.003 mm at best, and a maker states 0.00035 in of a feeler of 0.010 in).
    /// </summary>
    public static Length Finest { get; } = Length.FromMillimetres(0.002m);

    /// <summary>Whether a tolerance is stated that is finer than any set is made to.</summary>
    /// <param name="stated">The tolerance stated, if any.</param>
    public static bool IsTooFine(PrintedLength? stated) => stated?.Value.Abs < Finest;

    /// <summary>A stated tolerance as far as it is believed.</summary>
    /// <param name="stated">The tolerance stated.</param>
    public static Length Believed(PrintedLength stated)
    {
        ArgumentNullException.ThrowIfNull(stated);
        return Length.Max(stated.Value.Abs, Finest);
    }
}
