using ServiceRules.Domain.Site;

namespace ServiceRules.Rules.Checking;

/// <summary>Who is in the register, looked up by name: a register may hold thousands, and each be named as often.</summary>
internal sealed class KnownPeople(RuleLibrary library)
{
    private readonly Dictionary<string, RegisteredPerson> byName = library
        .People.GroupBy(person => person.Value.Id.Text, StringComparer.Ordinal)
        .ToDictionary(named => named.Key, named => named.First().Value, StringComparer.Ordinal);

    private string? listed;
    private string? mayRelease;

    /// <summary>What would be right where somebody else is named.</summary>
    public string Listed => listed ??= KnownNames.Of(byName.Keys, "a person of the register");

    /// <summary>What would be right where somebody who may not has waived something.</summary>
    public string WhoMayRelease =>
        mayRelease ??= KnownNames.Of(
            byName.Values.Where(person => person.MayRelease).Select(person => person.Id.Text),
            "a person with `mayRelease`"
        );

    public bool Has(string name) => byName.ContainsKey(name);

    /// <summary>The last day with the site of somebody who has left; null: still there.</summary>
    public DateOnly? Left(string name) => byName.TryGetValue(name, out var person) ? person.Left : null;

    public bool MayRelease(string name) => byName.TryGetValue(name, out var person) && person.MayRelease;
}
