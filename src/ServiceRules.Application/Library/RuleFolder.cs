using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Formats.Registers;
using ServiceRules.Rules.Checking;
using ServiceRules.Rules.Diagnostics;

namespace ServiceRules.Application.Library;

/// <summary>
/// A folder of rules: packs, limit sheets and one site, each a folder of files for people to read and edit. Loading
/// reads all of it and checks it as a whole; every problem of every file is told at once.
/// </summary>
public static class RuleFolder
{
    /// <summary>Loads a folder. Nothing in it makes this throw.</summary>
    /// <param name="folder">Where it is.</param>
    /// <param name="today">The day on which rules and texts are to be in force; null: whatever their days.</param>
    public static LoadedRules Load(string folder, DateOnly? today = null)
    {
        ArgumentNullException.ThrowIfNull(folder);
        FolderRemarks remarks = new();
        var files = FolderListing.Of(folder, remarks).ToLookup(RuleFileNames.KindOf);
        bool isListed = remarks.IsEmpty;
        FolderReading reading = new(files, remarks);
        var packs = reading.Packs();
        var cases = reading.Cases();
        Placed<SiteFile>? site = reading.Site();
        var registers = reading.Registers();
        var library = WithSite(
            new()
            {
                Packs = packs,
                Sheets = reading.Sheets(),
                Cases =
                [
                    .. cases.Select(promise => new Placed<ExpectedVerdict>(
                        new(promise.Case.Rule, promise.Case.Expect),
                        promise.File,
                        promise.Pointer
                    )),
                ],
            },
            site,
            registers,
            reading
        );
        reading.Strangers();
        reading.WithoutFixture(cases);
        if (isListed)
        {
            Needed(library, site, registers, files, remarks);
            WithinBounds(library, remarks);
        }

        // Against a library that is not whole, half of what the check says would be about what is missing.
        if (remarks.IsEmpty)
        {
            remarks.Add(PackCheck.Of(library, today));
        }

        return new()
        {
            Folder = folder,
            Book = library.Book,
            Library = library,
            Site = site is null ? null : Registers(site.Value, registers, library),
            Diagnostics = remarks.InOrder(),
            Cases = cases,
            PositionOf = remarks.PositionOf,
        };
    }

    /// <summary>
    /// Loads the folder of a further site, which is judged by the packs and limit sheets of a folder of rules and by registers
    /// of its own.
    /// </summary>
    /// <param name="folder">Where it is: a <c>site.json</c> with all that belongs to the site.</param>
    /// <param name="rules">The packs and limit sheets.</param>
    public static LoadedRules LoadSite(string folder, LoadedRules rules)
    {
        ArgumentNullException.ThrowIfNull(folder);
        ArgumentNullException.ThrowIfNull(rules);
        FolderRemarks remarks = new();
        var files = FolderListing.Of(folder, remarks).ToLookup(RuleFileNames.KindOf);
        bool isListed = remarks.IsEmpty;
        FolderReading reading = new(files, remarks);
        Placed<SiteFile>? site = reading.Site();
        var registers = reading.Registers();
        var library = WithSite(rules.Library, site, registers, reading);
        reading.Strangers();
        if (isListed)
        {
            OfSiteAlone(files, remarks);
            Needed(library, site, registers, files, remarks);
            if (site is null && !files[RuleFileKind.Site].Any())
            {
                remarks.Add(
                    DiagnosticCode.FileMissing,
                    "",
                    "there is no site in this folder",
                    "a folder with a `site.json`"
                );
            }
        }

        if (remarks.IsEmpty)
        {
            remarks.Add(PackCheck.Of(library));
        }

        return new()
        {
            Folder = folder,
            Book = rules.Book,
            Library = library,
            Site = site is null ? null : Registers(site.Value, registers, library),
            Diagnostics = remarks.InOrder(),
            Cases = [],
            PositionOf = remarks.PositionOf,
        };
    }

    private static void OfSiteAlone(ILookup<RuleFileKind, RuleFile> files, FolderRemarks remarks)
    {
        RuleFileKind[] own =
        [
            RuleFileKind.Unknown,
            RuleFileKind.Schema,
            RuleFileKind.Site,
            RuleFileKind.Registers,
            RuleFileKind.Procedure,
            RuleFileKind.SettingOrder,
        ];
        foreach (RuleFile file in files.Where(kind => !own.Contains(kind.Key)).SelectMany(kind => kind))
        {
            remarks.Add(
                DiagnosticCode.FileNotRead,
                file.Name,
                "this is no file of a site: packs and limit sheets are those of the folder of rules",
                "`site.json`, `registers.json`, `procedures/*.json` or `setting-orders/*.json`"
            );
        }
    }

    private static RuleLibrary WithSite(
        RuleLibrary library,
        Placed<SiteFile>? site,
        ImmutableArray<Placed<RegistersFile>> registers,
        FolderReading reading
    ) =>
        library with
        {
            Jurisdictions = Listed(site, file => file.Jurisdictions, "/jurisdictions"),
            Orders = reading.Orders(),
            Procedures = reading.Procedures(),
            People = Listed(registers, file => file.People, "/people"),
            Locks = Listed(registers, file => file.Locks, "/locks"),
            Waivers = Listed(registers, file => file.Waivers, "/waivers"),
            Machines = Listed(registers, file => file.Machines, "/machines"),
            Instruments = Listed(registers, file => file.Instruments, "/instruments"),
        };

    private static void WithinBounds(RuleLibrary library, FolderRemarks remarks)
    {
        AtMost(FolderLimits.Rules, library.Packs.Sum(pack => pack.Rules.Length), "rules", remarks);
        AtMost(FolderLimits.Sheets, library.Sheets.Length, "limit sheets", remarks);
    }

    private static void AtMost(int most, int count, string what, FolderRemarks remarks)
    {
        if (count > most)
        {
            remarks.Add(
                DiagnosticCode.TooMuch,
                "",
                string.Create(CultureInfo.InvariantCulture, $"there are {count} {what} in this folder"),
                string.Create(CultureInfo.InvariantCulture, $"at most {most}")
            );
        }
    }

    private static void Needed(
        RuleLibrary library,
        Placed<SiteFile>? site,
        ImmutableArray<Placed<RegistersFile>> registers,
        ILookup<RuleFileKind, RuleFile> files,
        FolderRemarks remarks
    )
    {
        if (library.Packs.IsEmpty && !files[RuleFileKind.PackHead].Any())
        {
            remarks.Add(
                DiagnosticCode.FileMissing,
                "",
                "there is no rule pack in this folder",
                "a folder with a `pack.json`"
            );
        }

        if (library.Sheets.IsEmpty && !files[RuleFileKind.Sheet].Any())
        {
            remarks.Add(
                DiagnosticCode.FileMissing,
                "",
                "there is no limit sheet in this folder",
                "`sheets/*.sheet.json`"
            );
        }

        if (site is not null && registers.IsEmpty && !files[RuleFileKind.Registers].Any())
        {
            remarks.Add(
                DiagnosticCode.FileMissing,
                site.File,
                "there is no `registers.json` beside the site",
                "a `registers.json` with the site's people, locks and waivers"
            );
        }
    }

    private static SiteRegisters Registers(
        SiteFile site,
        ImmutableArray<Placed<RegistersFile>> registers,
        RuleLibrary library
    ) =>
        new()
        {
            Name = site.Name,
            Jurisdictions = site.Jurisdictions,
            Zone = site.Zone,
            SettingOrders = Values(library.Orders),
            Procedures = Values(library.Procedures),
            People = Values(library.People),
            Locks = Values(library.Locks),
            Waivers = Values(library.Waivers),
            Machines = Values(library.Machines),
            Instruments = Values(library.Instruments),
            LockStyle = site.LockStyle,
            RemovalException = site.RemovalException,
            Attendance = [.. registers.SelectMany(file => file.Value.Attendance)],
            Elsewhere = [.. registers.SelectMany(file => file.Value.Elsewhere)],
        };

    private static ImmutableArray<T> Values<T>(ImmutableArray<Placed<T>> placed)
        where T : notnull => [.. placed.Select(one => one.Value)];

    private static ImmutableArray<Placed<T>> Listed<TFile, T>(
        Placed<TFile>? file,
        Func<TFile, ImmutableArray<T>> list,
        string pointer
    )
        where TFile : notnull
        where T : notnull => file is null ? [] : Listed([file], list, pointer);

    private static ImmutableArray<Placed<T>> Listed<TFile, T>(
        ImmutableArray<Placed<TFile>> files,
        Func<TFile, ImmutableArray<T>> list,
        string pointer
    )
        where TFile : notnull
        where T : notnull =>
        [
            .. files.SelectMany(file =>
                list(file.Value)
                    .Select(
                        (one, index) =>
                            new Placed<T>(one, file.File, FormattableString.Invariant($"{pointer}/{index}"))
                    )
            ),
        ];
}
