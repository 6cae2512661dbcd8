using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Library;
using ServiceRules.Application.Waiving;
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
)
{
    /// <summary>Which waivers counted that were entered beside the registers.</summary>
    public WaiverMark Waivers { get; init; }

    /// <summary>
    /// Whether they are still what judges, asked where the head of the log is locked: what is filed there is judged by nothing that
    /// somebody ended before.
    /// </summary>
    internal bool StillJudge(ILedgerWriting writing) =>
        writing.Packs.InForce()?.Digest == Activation.Digest && writing.Waivers.Mark(Site.Name) == Waivers;
}
