using ServiceRules.Application.Assessing;
using ServiceRules.Application.Library;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Packs;

/// <summary>Packs and sheets that judge, ready to.</summary>
/// <param name="Activation">Which they are, since when.</param>
/// <param name="Book">The packs and sheets.</param>
/// <param name="Site">The registers of the site, with the waivers that count.</param>
/// <param name="Judging">Judges by them, with the registers of the site.</param>
public sealed record JudgingRules(
    RulesActivation Activation,
    RuleBook Book,
    SiteRegisters Site,
    AssessRecord Judging
);
