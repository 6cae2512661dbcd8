namespace ServiceRules.Application.Library;

/// <summary>Checks a folder of rules: everything that loading would tell, with what was read.</summary>
public static class CheckRules
{
    /// <param name="folder">Where it is.</param>
    /// <param name="today">The day on which rules and texts are to be in force; null: whatever their days.</param>
    public static RulesChecked Run(string folder, DateOnly? today = null)
    {
        LoadedRules loaded = RuleFolder.Load(folder, today);
        return new(
            loaded.Book.Packs.Length,
            loaded.Book.Packs.Sum(pack => pack.Rules.Length),
            loaded.Book.Sheets.Length,
            loaded.Cases.Length,
            loaded.Diagnostics
        );
    }
}
