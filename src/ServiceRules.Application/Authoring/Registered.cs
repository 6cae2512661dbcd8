using System.Collections.Immutable;
using ServiceRules.Application.Library;
using ServiceRules.Domain.Site;
using ServiceRules.Rules.Checking;

namespace ServiceRules.Application.Authoring;

/// <summary>The lists of a register that entries are added to.</summary>
public static class Registered
{
    /// <summary>The people of a site.</summary>
    public static Registered<RegisteredPerson> People(LoadedRules rules)
    {
        ArgumentNullException.ThrowIfNull(rules);
        return new(rules, rules.Library.People, "person", one => one.Id.Text);
    }

    /// <summary>Its locks and tags.</summary>
    public static Registered<RegisteredLock> Locks(LoadedRules rules)
    {
        ArgumentNullException.ThrowIfNull(rules);
        return new(rules, rules.Library.Locks, "lock or tag", one => one.Id.Text);
    }

    /// <summary>Its gauges.</summary>
    public static Registered<RegisteredInstrument> Instruments(LoadedRules rules)
    {
        ArgumentNullException.ThrowIfNull(rules);
        return new(rules, rules.Library.Instruments, "instrument", one => one.Id.Text);
    }

    /// <summary>Its machines.</summary>
    public static Registered<RegisteredMachine> Machines(LoadedRules rules)
    {
        ArgumentNullException.ThrowIfNull(rules);
        return new(rules, rules.Library.Machines, "machine", one => one.Id.Text);
    }
}

/// <summary>One list of the registers of a site.</summary>
/// <typeparam name="T">What is listed.</typeparam>
public sealed class Registered<T>
    where T : notnull
{
    // A longer list is not read.
    private const int NamedMost = 12;

    private readonly LoadedRules rules;
    private readonly ImmutableArray<Placed<T>> entries;
    private readonly string kind;

    internal Registered(
        LoadedRules rules,
        ImmutableArray<Placed<T>> entries,
        string kind,
        Func<T, string> idOf
    ) => (this.rules, this.entries, this.kind, IdOf) = (rules, entries, kind, idOf);

    internal Func<T, string> IdOf { get; }

    /// <summary>The entry of a name, or null.</summary>
    public T? Find(string id) => Placed(id) is { } placed ? placed.Value : default;

    /// <summary>The names that there are, in order.</summary>
    public string Names =>
        entries.Length == 0
            ? $"there is no {kind} yet"
            : string.Join(
                ", ",
                entries
                    .Select(one => IdOf(one.Value))
                    .Order(StringComparer.Ordinal)
                    .Take(NamedMost)
                    .Concat(entries.Length > NamedMost ? ["..."] : [])
            );

    /// <summary>What stands against an entry of this name: there is one, or there is none to change; null: nothing.</summary>
    /// <param name="id">The name.</param>
    /// <param name="changes">Whether an entry that stands is meant.</param>
    public string? Against(string id, bool changes)
    {
        if (Placed(id) is not { } standing)
        {
            return changes ? $"ID: there is no {kind} `{id}` to change; accepted: {Names}" : null;
        }

        if (changes)
        {
            return null;
        }

        var place = rules.PlaceOf(standing, "");
        return FormattableString.Invariant(
            $"{place.File}:{place.Line}:{place.Column} {place.Pointer}: there is a {kind} `{id}` already; accepted: another identity; or --change, which changes what is given of it and leaves the rest"
        );
    }

    internal string? FileOf(string id) => Placed(id)?.File;

    private Placed<T>? Placed(string id) => entries.FirstOrDefault(one => IdOf(one.Value) == id);
}
