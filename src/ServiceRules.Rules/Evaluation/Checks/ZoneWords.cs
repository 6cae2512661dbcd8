using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>Limits in words, in the units of the reading.</summary>
internal static class ZoneWords
{
    public static string Of(ToleranceZone zone, UnitSystem system) => Of(zone.Lower, zone.Upper, system);

    public static string Of(Length? lower, Length? upper, UnitSystem system) =>
        (lower, upper) switch
        {
            ({ } from, { } to) when from == -to => $"limit {Wording.Of(to, system)} either way",
            ({ } from, { } to) => $"limits {Wording.Of(from, system)} to {Wording.Of(to, system)}",
            ({ } from, null) => $"limit at least {Wording.Of(from, system)}",
            (null, { } to) => $"limit {Wording.Of(to, system)}",
            _ => "no limit",
        };
}
