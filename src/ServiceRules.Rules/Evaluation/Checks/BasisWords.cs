using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>What a figure rests on, as a note says it.</summary>
internal static class BasisWords
{
    public static string Of(Basis basis) =>
        basis.Kind switch
        {
            BasisKind.Published or BasisKind.Manual when basis.Source is { } source => $"rates: {source}",
            BasisKind.Manual => "rates of the unit's own manual",
            BasisKind.SitePolicy => "rates of the site",
            BasisKind.CommonPractice => "rates of common practice, no source",
            BasisKind.FromMemory => "rates from memory",
            BasisKind.Derived => "rates derived",
            BasisKind.Duty => "rates of a duty of safe work",
            _ => "rates published",
        };
}
