using System.Collections.Immutable;
using ServiceRules.Application.Library;
using ServiceRules.Application.RuleCases;
using ServiceRules.Application.RuleCases.Coverage;

namespace ServiceRules.Application.Packs;

/// <summary>What packs and sheets came to that somebody sent.</summary>
/// <param name="Rules">What was read, held against the registers here.</param>
/// <param name="Digest">Names packs and sheets, as assessments made by them would.</param>
/// <param name="LeftOut">Files that were sent and are not looked at: registers, which stay those that are here.</param>
public sealed record PackTried(LoadedRules Rules, string Digest, ImmutableArray<string> LeftOut)
{
    /// <summary>What the cases came to; null where none was run.</summary>
    public RulesTested? Tested { get; init; }

    /// <summary>What the cases exercise; null likewise.</summary>
    public RuleCoverage? Coverage { get; init; }
}
