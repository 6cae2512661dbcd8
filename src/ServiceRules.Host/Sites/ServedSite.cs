using ServiceRules.Application.Assessing;
using ServiceRules.Application.Library;
using ServiceRules.Host.Filing;
using ServiceRules.Rules.Checking;

namespace ServiceRules.Host.Sites;

/// <summary>One site: its registers, and the desk where its records are judged by them and filed.</summary>
/// <param name="Registers">What it keeps besides its rules.</param>
/// <param name="Library">The same and the rules, each part with the file that it stands in.</param>
/// <param name="Judging">Judges by both.</param>
/// <param name="Desk">Files.</param>
internal sealed record ServedSite(
    SiteRegisters Registers,
    RuleLibrary Library,
    AssessRecord Judging,
    FilingDesk Desk
)
{
    public string Name => Registers.Name;
}
