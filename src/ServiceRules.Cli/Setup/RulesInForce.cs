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

    /// <summary>The folder of a site that is judged by the packs of <see cref="Option"/>.</summary>
    public static Option<DirectoryInfo?> Site { get; } =
        new("--site")
        {
            Description =
                "Folder of a further site (site.json, registers.json, procedures, setting-orders), judged by the packs and sheets of --rules. "
                + "Default: the site in the folder of rules.",
            HelpName = "DIR",
        };

    /// <summary>The rules with the site that is given, or with their own.</summary>
    /// <exception cref="InputException">They are not fit to judge by.</exception>
    public static LoadedRules SoundAt(ParseResult parsed)
    {
        var loaded = Load(parsed);
        return parsed.GetValue(Site) is { } folder ? SiteIn(folder, loaded) : Sound(loaded);
    }

    /// <summary>A further site, by the packs and sheets of loaded rules.</summary>
    /// <exception cref="InputException">One of both is not fit to judge by.</exception>
    public static LoadedRules SiteIn(DirectoryInfo folder, LoadedRules loaded) =>
        Sound(RuleFolder.LoadSite(folder.FullName, loaded.IsSound ? loaded : Sound(loaded)));

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
