using System.Globalization;
using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Rules.Evaluation;

/// <summary>
/// Two gauges, or one gauge twice, that read one place with nothing turned between: is it the gauge, or the unit?
/// </summary>
/// <param name="Earlier">The gauge that read before.</param>
/// <param name="Later">The gauge that read last.</param>
/// <param name="Error">How far they are apart against what explains a difference.</param>
public sealed record GaugeComparison(Instrument Earlier, Instrument Later, NormalisedError Error)
{
    /// <summary>More gauges agree with the later one than do not.</summary>
    public bool IsSettled { get; init; }

    /// <summary>The later one is in doubt and the earlier one is not: that one settles it.</summary>
    public bool IsLaterInDoubt { get; init; }

    /// <summary>What the two gauges tell, in words, the place not named.</summary>
    /// <param name="system">The units of the reading.</param>
    public string Words(UnitSystem system)
    {
        var apart = Wording.Beside(Error.Difference, Error.Limit, system);
        var explained = UncertaintyPrint.Of(Error.Limit, system);
        return Earlier == Later
                ? $"{Later.Id} read {apart} apart with nothing turned between, where rounding and its own scatter explain {explained}: {WhatOfItself()}"
            : Error.Agrees
                ? $"{Earlier.Id} and {Later.Id} agree ({apart} apart, where {explained} would be nothing odd): that points to the unit, though two gauges set on one wrong piece agree too"
            : $"{Earlier.Id} and {Later.Id} read {apart} apart with nothing turned between, where what is known of both explains {explained} (normalised error {Ratio()}): that points to a gauge or its zero; {FirstSuspect()}; {WhatSettlesIt()}";
    }

    private string Ratio() =>
        Error.Value is > 1 and var ratio
            ? $"{ratio.ToString(CultureInfo.InvariantCulture)}, above 1"
            : "just above 1";

    private string WhatSettlesIt() =>
        IsLaterInDoubt ? $"{Later.Id} is in doubt: reading again with {Earlier.Id} settles it"
        : IsSettled ? $"more gauges read as {Later.Id} does, and that counts"
        : "reading again with one of them does not settle it, a third gauge may";

    /// <summary>What one gauge that contradicts itself points to: its zero, how it is held, or something loose.</summary>
    private string WhatOfItself()
    {
        var unstated = !StatedScatter.IsStated(Later)
            ? "; how well it repeats is not stated, and if it scatters like that, state it"
            : string.Empty;
        return "a calibration shared by both readings explains none of it; check its zero again, seat it anew and repeat until more "
            + $"readings agree with the last than do not; if they go on to differ, look for play in the unit{unstated}";
    }

    private string FirstSuspect()
    {
        var earlier = ZeroEvidence(Earlier);
        var later = ZeroEvidence(Later);
        if (earlier == later)
        {
            return "check the zero of both on a setting piece";
        }

        var (better, suspect) = earlier > later ? (Earlier, Later) : (Later, Earlier);
        var why = suspect.ZeroCheck is null ? "a zero check and the other none" : "the later zero check";
        return $"{better.Id} has {why}, so check the zero of {suspect.Id} first";
    }

    private static int ZeroEvidence(Instrument gauge) =>
        gauge.ZeroCheckAfter is not null ? 2
        : gauge.ZeroCheck is not null ? 1
        : 0;
}
