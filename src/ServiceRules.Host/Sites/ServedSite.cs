using ServiceRules.Application.Library;
using ServiceRules.Application.Packs;
using ServiceRules.Host.Filing;
using ServiceRules.Rules.Checking;

namespace ServiceRules.Host.Sites;

/// <summary>One site: its registers, and the desk where its records are judged by them and filed.</summary>
/// <param name="Folder">Where it is read from: a folder of rules, or of a site.</param>
/// <param name="Registers">What it keeps besides its rules.</param>
/// <param name="Library">The same and the rules, each part with the file that it stands in.</param>
/// <param name="Rules">What judges now, by its registers.</param>
/// <param name="Desk">Files.</param>
internal sealed record ServedSite(
    string Folder,
    SiteRegisters Registers,
    RuleLibrary Library,
    ActiveRules Rules,
    FilingDesk Desk
)
{
    public string Name => Registers.Name;
}
