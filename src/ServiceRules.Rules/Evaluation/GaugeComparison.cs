using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Rules.Evaluation;

/// <summary>Two gauges that read one place with nothing turned between: is it the gauge, or the unit?</summary>
/// <param name="Earlier">The gauge that read before.</param>
/// <param name="Later">The gauge that read last.</param>
/// <param name="Error">How far they are apart against what is known of both.</param>
public sealed record GaugeComparison(Instrument Earlier, Instrument Later, NormalisedError Error)
{
    /// <summary>What the two gauges tell, in words.</summary>
    /// <param name="place">The place in words.</param>
    /// <param name="system">The units of the reading.</param>
    public string Words(string place, UnitSystem system)
    {
        var apart = Wording.Beside(Error.Difference, Error.Limit, system);
        var explained = UncertaintyPrint.Of(Error.Limit, system);
        return Error.Agrees
            ? $"{place}: {Earlier.Id} and {Later.Id} agree ({apart} apart, where {explained} would be nothing odd): that points to the unit, though two gauges set on one wrong piece agree too"
            : $"{place}: {Earlier.Id} and {Later.Id} read {apart} apart with nothing turned between, where what is known of both explains {explained}: that points to a gauge or its zero; {FirstSuspect()}";
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
