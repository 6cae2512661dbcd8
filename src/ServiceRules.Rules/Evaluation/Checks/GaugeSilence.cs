using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Rules.Evaluation.Bench;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>What a gauge of lengths leaves unsaid, and what is taken for want of it: it is told once, and changes no verdict by itself.</summary>
internal static class GaugeSilence
{
    public static IEnumerable<string> Told(IEnumerable<Instrument> gauges) =>
        gauges.Select(Told).OfType<string>();

    private static string? Told(Instrument gauge)
    {
        var ofZero = TakenForWant.ZeroTaken(gauge) is not null;
        var ofScatter = !StatedScatter.IsStated(gauge) && TakenForWant.HasScale(gauge);
        var none = StatedScatter.SaysNothing(gauge) is { } stated
            ? $"no repeatability ({stated} is none)"
            : "no repeatability";
        var zero =
            $"{Wording.Of(TakenForWant.MostZeroError(gauge), UnitSystem.Inch)} either way for its zero, the most that a fit one may be off";
        const string scatter = "half a step that it shows for how its readings scatter";
        const string source = "common practice, no source";
        return (ofZero, ofScatter) switch
        {
            (true, true) =>
                $"gauge {gauge.Id} states no zero check and {none}: taken for want of them are {zero}, and {scatter} ({source})",
            (true, false) =>
                $"gauge {gauge.Id} states no zero check: taken for want of one is {zero} ({source})",
            (false, true) => $"gauge {gauge.Id} states {none}: taken for want of one is {scatter} ({source})",
            _ => null,
        };
    }
}
