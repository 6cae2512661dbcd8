using System.Collections.Immutable;
using ServiceRules.Application.Library;
using ServiceRules.Domain.Site;
using ServiceRules.Formats.Registers;

namespace ServiceRules.Application.Authoring;

/// <summary>
/// Enters a person, a lock, a gauge or a machine in the registers of a site, or changes the entry that stands. All of it stands
/// there and the folder is sound with it, or nothing was touched.
/// </summary>
public static class EnterInRegister
{
    /// <param name="rules">A folder that is sound and has a site.</param>
    /// <param name="person">The person.</param>
    /// <param name="changes">Whether an entry that stands is meant.</param>
    public static AuthoringOutcome Person(LoadedRules rules, RegisteredPerson person, bool changes)
    {
        ArgumentNullException.ThrowIfNull(rules);
        ArgumentNullException.ThrowIfNull(person);
        return Run(
            rules,
            Registered.People(rules),
            person,
            changes,
            (file, change) => file with { People = change(file.People) }
        );
    }

    /// <param name="rules">A folder that is sound and has a site.</param>
    /// <param name="device">The lock or tag.</param>
    /// <param name="changes">Whether an entry that stands is meant.</param>
    public static AuthoringOutcome Lock(LoadedRules rules, RegisteredLock device, bool changes)
    {
        ArgumentNullException.ThrowIfNull(rules);
        ArgumentNullException.ThrowIfNull(device);
        return Run(
            rules,
            Registered.Locks(rules),
            device,
            changes,
            (file, change) => file with { Locks = change(file.Locks) }
        );
    }

    /// <param name="rules">A folder that is sound and has a site.</param>
    /// <param name="gauge">The gauge.</param>
    /// <param name="changes">Whether an entry that stands is meant.</param>
    public static AuthoringOutcome Instrument(LoadedRules rules, RegisteredInstrument gauge, bool changes)
    {
        ArgumentNullException.ThrowIfNull(rules);
        ArgumentNullException.ThrowIfNull(gauge);
        return Run(
            rules,
            Registered.Instruments(rules),
            gauge,
            changes,
            (file, change) => file with { Instruments = change(file.Instruments) }
        );
    }

    /// <param name="rules">A folder that is sound and has a site.</param>
    /// <param name="machine">The machine.</param>
    /// <param name="changes">Whether an entry that stands is meant.</param>
    public static AuthoringOutcome Machine(LoadedRules rules, RegisteredMachine machine, bool changes)
    {
        ArgumentNullException.ThrowIfNull(rules);
        ArgumentNullException.ThrowIfNull(machine);
        return Run(
            rules,
            Registered.Machines(rules),
            machine,
            changes,
            (file, change) => file with { Machines = change(file.Machines) }
        );
    }

    private static AuthoringOutcome Run<T>(
        LoadedRules rules,
        Registered<T> register,
        T entry,
        bool changes,
        Func<RegistersFile, Func<ImmutableArray<T>, ImmutableArray<T>>, RegistersFile> with
    )
        where T : notnull
    {
        var id = register.IdOf(entry);
        if (register.Against(id, changes) is { } against)
        {
            return new AuthoringOutcome.Refused([against]);
        }

        using var draft = FolderDraft.Of(rules.Folder);
        var file = register.FileOf(id) ?? draft.Of(RuleFileKind.Registers).First();
        draft.Put(
            file,
            with(
                draft.Read(file, SiteFormat.Registers),
                standing =>
                    changes
                        ? [.. standing.Select(one => register.IdOf(one) == id ? entry : one)]
                        : [.. standing, entry]
            ),
            SiteFormat.Registers
        );
        return draft.Keep(rules.Diagnostics);
    }
}
