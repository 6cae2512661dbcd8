using System.Collections.Immutable;
using ServiceRules.Rules.Diagnostics;

namespace ServiceRules.Application.Library;

/// <summary>What checking a folder of rules came to.</summary>
/// <param name="Packs">Packs read.</param>
/// <param name="Rules">Rules read.</param>
/// <param name="Sheets">Limit sheets read.</param>
/// <param name="Cases">Cases read.</param>
/// <param name="Diagnostics">Everything wrong or odd, by file and place.</param>
public sealed record RulesChecked(
    int Packs,
    int Rules,
    int Sheets,
    int Cases,
    ImmutableArray<Diagnostic> Diagnostics
)
{
    /// <summary>Whether these rules may judge: nothing is wrong with them.</summary>
    public bool IsSound => Diagnostics.All(remark => remark.Level is not DiagnosticLevel.Error);
}
