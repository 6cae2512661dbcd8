using System.CommandLine;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Library;
using ServiceRules.Rules.Diagnostics;

namespace ServiceRules.Cli.Setup;

/// <summary>The rules folder that a command works by: the one given, else the one shipped beside the program.</summary>
internal static class RulesInForce
{
    public static Option<DirectoryInfo?> Option { get; } =
        new("--rules")
        {
            Description =
                "Folder with rule packs, limit sheets and the site. Default: the folder shipped with the program.",
            HelpName = "DIR",
        };

    public static string FolderOf(ParseResult parsed) =>
        parsed.GetValue(Option)?.FullName ?? Path.Combine(AppContext.BaseDirectory, "rules");

    public static LoadedRules Load(ParseResult parsed) => RuleFolder.Load(FolderOf(parsed));

    /// <exception cref="InputException">The rules are not fit to judge by.</exception>
    public static AssessRecord Judging(ParseResult parsed) => Judging(Sound(parsed));

    public static AssessRecord Judging(LoadedRules sound) => new(sound.Book, sound.Site!);

    /// <summary>Rules that are fit to judge by, with their site.</summary>
    /// <exception cref="InputException">They are not.</exception>
    public static LoadedRules Sound(ParseResult parsed) => Sound(Load(parsed));

    /// <summary>Rules that are fit to judge by, with their site.</summary>
    /// <exception cref="InputException">They are not.</exception>
    public static LoadedRules Sound(LoadedRules loaded)
    {
        if (!loaded.IsSound || loaded.Site is null)
        {
            var first = loaded.Diagnostics.FirstOrDefault(remark => remark.Level is DiagnosticLevel.Error);
            throw new InputException(
                $"the rules in `{loaded.Folder}` are not fit to judge by"
                    + (first is null ? ": there is no site in them" : $": {first}"),
                "`servicerules rules check` tells everything that is wrong with them."
            );
        }

        return loaded;
    }
}
