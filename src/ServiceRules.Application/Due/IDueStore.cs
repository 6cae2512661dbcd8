using System.Collections.Immutable;

namespace ServiceRules.Application.Due;

/// <summary>
/// What stored records say falls due, as it was found last, and what somebody was told of. No person stands in it. Safe to share
/// between threads.
/// </summary>
public interface IDueStore
{
    /// <summary>Null: those of this site were never looked through.</summary>
    DueLook? Look(string site);

    /// <summary>What the records of a site said then.</summary>
    ImmutableArray<DueThing> Found(string site);

    /// <summary>Puts what was found in the place of what was found before.</summary>
    void Keep(DueLook look, IEnumerable<DueThing> found);

    /// <summary>
    /// Keeps in one transaction that recipients are to be told, of what nobody was told of before.
    /// </summary>
    /// <returns>Of how many things.</returns>
    int Tell(IEnumerable<DueNotice> notices);

    /// <summary>What recipients are told under this number; null: there is none.</summary>
    ToldDueNotice? Told(long number);
}
