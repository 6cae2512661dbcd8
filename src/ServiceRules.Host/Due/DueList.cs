using System.Collections.Immutable;
using ServiceRules.Application.Due;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Sites;

namespace ServiceRules.Host.Due;

/// <summary>What falls due at the sites of whoever asks, page by page.</summary>
internal static class DueList
{
    /// <param name="desk">Tells of a site.</param>
    /// <param name="sites">Of which sites.</param>
    /// <param name="caller">Who asks.</param>
    /// <param name="within">Days ahead.</param>
    /// <param name="after">Where the page before ended; null: the first page.</param>
    /// <param name="most">Rows of a page.</param>
    public static DueAnswer Of(
        DueDesk desk,
        IReadOnlyList<ServedSite> sites,
        Caller caller,
        int within,
        string? after,
        int most
    )
    {
        var today = sites.ToDictionary(site => site.Name, desk.Today, StringComparer.Ordinal);
        var rest = sites
            .SelectMany(site => desk.Of(site, within))
            .Select(thing => DueSeen.By(caller, thing))
            .OfType<DueThing>()
            .Select(thing => (Place: DuePlace.Of(thing), Thing: thing))
            .Where(one => after is null || string.CompareOrdinal(one.Place, after) > 0)
            .OrderBy(one => one.Place, StringComparer.Ordinal)
            .Take(most + 1)
            .ToImmutableArray();
        var page = rest.Take(most).ToList();
        var looks = sites.Select(site => desk.Look(site)?.At).ToList();
        return new(
            [.. page.Select(one => ToldDue.Of(one.Thing, today[one.Thing.Site]))],
            rest.Length > most ? DuePlace.Write(page[^1].Place) : null,
            looks.Contains(null) ? null : looks.Min()
        );
    }
}
