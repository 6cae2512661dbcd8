using System.Collections.Immutable;
using System.Text;
using ServiceRules.Application.Library;
using ServiceRules.Domain.Timeline;
using ServiceRules.Formats.Json;
using ServiceRules.Formats.Registers;
using ServiceRules.Rules.Diagnostics;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Authoring;

/// <summary>
/// Makes the folder of a new site: the rules of the trade out of another folder, and registers of its own with its clock and its
/// people in them. Of the site in that other folder nothing is taken. What the shop alone can say is not there, and not made up.
/// </summary>
public static class NewSite
{
    // What the names of folders are made of on every system.
    private const int LongestFolder = 40;

    /// <param name="rules">A folder that is sound, whose packs and limit sheets are taken.</param>
    /// <param name="demand">What is asked for.</param>
    public static AuthoringOutcome Run(LoadedRules rules, SiteDemand demand)
    {
        ArgumentNullException.ThrowIfNull(rules);
        ArgumentNullException.ThrowIfNull(demand);
        ImmutableArray<string> against = [.. Against(rules, demand)];
        return against.IsEmpty
            ? Write(rules, demand, SiteOf(demand, Clock(demand, out _)))
            : new AuthoringOutcome.Refused(against);
    }

    /// <summary>Everything that stands against it.</summary>
    /// <param name="rules">The folder whose packs and limit sheets are taken.</param>
    /// <param name="demand">What is asked for.</param>
    public static IEnumerable<string> Against(LoadedRules rules, SiteDemand demand)
    {
        ArgumentNullException.ThrowIfNull(rules);
        ArgumentNullException.ThrowIfNull(demand);
        var zone = Clock(demand, out var wrong);
        return
        [
            .. Place(rules, demand.Folder),
            .. wrong,
            .. Named(rules, SiteOf(demand, zone)),
            .. People(demand),
            .. Jurisdictions(rules, demand),
        ];
    }

    private static SiteFile SiteOf(SiteDemand demand, SiteZone? zone) =>
        new(demand.Name, demand.Jurisdictions, zone ?? Utc) { LockStyle = demand.LockStyle };

    private static SiteZone? Clock(SiteDemand demand, out ImmutableArray<string> wrong) =>
        SiteClock.Of(demand.TimeZone, demand.ZoneData, demand.Today, out wrong);

    private static SiteZone Utc => SiteZone.Of("UTC", "none", 0, []).OrThrow();

    // What the format says of the words is said in the words of the command.
    private static IEnumerable<string> Named(LoadedRules rules, SiteFile site)
    {
        if (site.Name == rules.Site?.Name)
        {
            yield return $"NAME: `{site.Name}` is the site in `{rules.Folder}`, and nobody could tell records of the two apart; accepted: another name";
        }

        if (!SiteFormat.Site.Read(SiteFormat.Site.Write(site)).TryGet(out _, out var problems))
        {
            foreach (var problem in problems.Told)
            {
                yield return $"{OptionOf(problem.Pointer)}: {problem.What}, `{problem.Found}`; accepted: {problem.Accepted}";
            }
        }
    }

    private static string OptionOf(string pointer) =>
        pointer switch
        {
            "/name" => "NAME",
            "/lockStyle" => "--lock-style",
            _ when pointer.StartsWith("/jurisdictions", StringComparison.Ordinal) => "--jurisdiction",
            _ => pointer,
        };

    private static IEnumerable<string> People(SiteDemand demand)
    {
        if (!demand.People.Any(one => one.Role is ShopRole.Lead))
        {
            yield return "--lead is not given: who orders settings and lets out what others did; accepted: `--lead lead-01`";
        }

        foreach (
            var twice in demand
                .People.GroupBy(one => one.Id, StringComparer.Ordinal)
                .Where(named => named.Count() > 1)
        )
        {
            yield return $"`{twice.Key}` is named {twice.Count()} times, as {string.Join(" and ", twice.Select(one => OptionOf(one.Role)))}; accepted: each person once; a lead does what a technician does";
        }
    }

    private static string OptionOf(ShopRole role) =>
        role switch
        {
            ShopRole.Lead => "--lead",
            ShopRole.Officer => "--officer",
            ShopRole.Operator => "--operator",
            _ => "--technician",
        };

    private static IEnumerable<string> Jurisdictions(LoadedRules rules, SiteDemand demand)
    {
        var known = rules
            .Library.Packs.Where(pack => pack.Pack.Layer is PackLayer.Jurisdiction)
            .Select(pack => pack.Pack.Id.Text)
            .Order(StringComparer.Ordinal)
            .ToList();
        return demand
            .Jurisdictions.Where(one => !known.Contains(one))
            .Select(one =>
                $"--jurisdiction: there is no pack of a jurisdiction `{one}`; accepted: {string.Join(", ", known)}"
            );
    }

    private static IEnumerable<string> Place(LoadedRules rules, string folder)
    {
        if (folder.Length == 0)
        {
            yield return "--to is not given: which folder to make; accepted: `--to shop`";
            yield break;
        }

        var full = Path.TrimEndingDirectorySeparator(Path.GetFullPath(folder));
        var source = Path.TrimEndingDirectorySeparator(Path.GetFullPath(rules.Folder));
        if (full == source || full.StartsWith(source + Path.DirectorySeparatorChar, StringComparison.Ordinal))
        {
            yield return $"--to: `{folder}` lies in the folder that is copied, `{rules.Folder}`; accepted: a folder of its own";
        }
        else if (File.Exists(full))
        {
            yield return $"--to: `{folder}` is a file; accepted: a folder that is not there yet, or is empty";
        }
        else if (Directory.Exists(full) && Directory.EnumerateFileSystemEntries(full).Any())
        {
            yield return $"--to: `{folder}` is there and not empty, and nothing is written over; accepted: a folder that is not there yet, or is empty";
        }
        else if (Path.GetDirectoryName(full) is { } above && !Directory.Exists(above))
        {
            yield return $"--to: there is no folder `{above}` to make `{Path.GetFileName(full)}` in; accepted: a folder that is there";
        }
    }

    // Beside its place, and under its name once all of it is on the disk and sound. A folder that is there, and empty, stays the one that
    // it is, since a shell may stand in it, or a disk be mounted there.
    private static AuthoringOutcome Write(LoadedRules rules, SiteDemand demand, SiteFile site)
    {
        var full = Path.TrimEndingDirectorySeparator(Path.GetFullPath(demand.Folder));
        var isThere = Directory.Exists(full);
        var draft = isThere
            ? Path.Combine(full, $".{Path.GetRandomFileName()}")
            : $"{full}.{Path.GetRandomFileName()}";
        Directory.CreateDirectory(draft);
        try
        {
            var copied = SiteCopy.Of(rules, draft);
            var own = $"site-{Slug(demand.Name)}";
            Put(draft, $"{own}/site.json", SiteFormat.Site, site);
            Put(
                draft,
                $"{own}/registers.json",
                SiteFormat.Registers,
                new([.. demand.People.Select(one => ShopRoles.Person(one.Id, one.Role))], [], [], [])
            );
            File.WriteAllText(Path.Combine(draft, own, "README.md"), SiteReadme.Of(site));
            var loaded = RuleFolder.Load(draft);
            if (!loaded.IsSound)
            {
                return new AuthoringOutcome.Refused([
                    .. loaded
                        .Diagnostics.Where(remark => remark.Level is DiagnosticLevel.Error)
                        .Select(remark => remark.ToString()),
                ]);
            }

            if (isThere)
            {
                foreach (var entry in Directory.EnumerateFileSystemEntries(draft))
                {
                    Directory.Move(entry, Path.Combine(full, Path.GetFileName(entry)));
                }
            }
            else
            {
                Directory.Move(draft, full);
            }

            return new AuthoringOutcome.Written(
                [$"{own}/site.json", $"{own}/registers.json", $"{own}/README.md"],
                [
                    $"copied: {copied} files of packs, limit sheets, their cases and schemas; of the site in `{rules.Folder}` nothing",
                    .. loaded
                        .Diagnostics.Where(remark =>
                            remark.File.StartsWith(own + "/", StringComparison.Ordinal)
                        )
                        .Select(remark => remark.ToString()),
                ]
            );
        }
        finally
        {
            if (Directory.Exists(draft))
            {
                Directory.Delete(draft, recursive: true);
            }
        }
    }

    private static void Put<T>(string draft, string name, DocumentFormat<T> format, T value)
        where T : notnull
    {
        var path = Path.Combine(draft, name);
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        var schema = $"schema/{format.Name}.schema.json";
        File.WriteAllBytes(
            path,
            format.WriteLaidOut(value, File.Exists(Path.Combine(draft, schema)) ? $"../{schema}" : null)
        );
    }

    private static string Slug(string name)
    {
        var slug = new StringBuilder();
        foreach (var letter in name.ToLowerInvariant())
        {
            if (char.IsAsciiLetterOrDigit(letter))
            {
                slug.Append(letter);
            }
            else if (slug.Length > 0 && slug[^1] != '-')
            {
                slug.Append('-');
            }
        }

        var text = slug.ToString().Trim('-');
        return text.Length == 0 ? "own" : text[..Math.Min(text.Length, LongestFolder)].Trim('-');
    }
}
