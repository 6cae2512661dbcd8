namespace ServiceRules.Application.Library;

/// <summary>Checks a folder of rules: everything that loading would tell, with what was read.</summary>
public static class CheckRules
{
    public static RulesChecked Run(string folder)
    {
        LoadedRules loaded = RuleFolder.Load(folder);
        return new(
            loaded.Book.Packs.Length,
            loaded.Book.Packs.Sum(pack => pack.Rules.Length),
            loaded.Book.Sheets.Length,
            loaded.Cases.Length,
            loaded.Diagnostics
        );
    }
}
