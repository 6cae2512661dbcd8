namespace ServiceRules.Application.Library;

/// <summary>Tells what a file is, so that a misspelt name is told and never silently left out.</summary>
internal static class RuleFileNames
{
    public const string Accepted =
        "`pack.json`, `*.rules.json`, `*.citations.json`, `*.cases.json`, `*.sheet.json`, `fixtures/*.record.json`, `fixtures/*.context.json`, `site.json`, `registers.json`, `procedures/*.json` or `setting-orders/*.json`";

    public static RuleFileKind KindOf(RuleFile file)
    {
        string holder = file.Folder[(file.Folder.LastIndexOf('/') + 1)..];
        return (holder, file.Leaf) switch
        {
            ("schema", _) => RuleFileKind.Schema,
            ("procedures", _) => RuleFileKind.Procedure,
            ("setting-orders", _) => RuleFileKind.SettingOrder,
            (_, "pack.json") => RuleFileKind.PackHead,
            (_, "site.json") => RuleFileKind.Site,
            (_, "registers.json") => RuleFileKind.Registers,
            var (_, leaf) when Ends(leaf, ".rules.json") => RuleFileKind.Rules,
            var (_, leaf) when Ends(leaf, ".citations.json") => RuleFileKind.Citations,
            var (_, leaf) when Ends(leaf, ".cases.json") => RuleFileKind.Cases,
            var (_, leaf) when Ends(leaf, ".sheet.json") => RuleFileKind.Sheet,
            var (_, leaf) when Ends(leaf, ".record.json") => RuleFileKind.FixtureRecord,
            var (_, leaf) when Ends(leaf, ".context.json") => RuleFileKind.FixtureContext,
            _ => RuleFileKind.Unknown,
        };
    }

    private static bool Ends(string leaf, string ending) => leaf.EndsWith(ending, StringComparison.Ordinal);
}
