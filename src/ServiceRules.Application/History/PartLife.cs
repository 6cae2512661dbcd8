using System.Collections.Immutable;
using ServiceRules.Domain.Records;

namespace ServiceRules.Application.History;

/// <summary>
/// The visits of one reel or bedknife in order, on whatever unit it sat: a history survives a swapped part, and a new
/// part starts a new one.
/// </summary>
/// <param name="Site">The site.</param>
/// <param name="Name">Its identity; null when no record names it.</param>
/// <param name="Visits">Its visits; of each, whether it was there when found and when left.</param>
internal sealed record PartLife(string Site, string? Name, ImmutableArray<PartLife.Visit> Visits)
{
    /// <summary>One visit of the part.</summary>
    public sealed record Visit(UnitVisit Unit, bool Found, bool Left);

    /// <summary>The unit that it sits in, or sat in last.</summary>
    public UnitVisit Last => Visits[^1].Unit;

    /// <summary>Whether it is still there: not taken out at its last visit.</summary>
    public bool IsFitted => Visits[^1].Left;

    /// <summary>The lives of all parts of a kind.</summary>
    /// <param name="byUnit">The visits of each unit, in order.</param>
    /// <param name="kind">Reel or bedknife.</param>
    public static ImmutableArray<PartLife> Of(IEnumerable<IReadOnlyList<UnitVisit>> byUnit, PartKind kind)
    {
        var seen = byUnit
            .SelectMany(visits => Sittings(visits, kind))
            .GroupBy(one => (one.Visit.Unit.Site, one.Key))
            .Select(part => new PartLife(
                part.Key.Site,
                part.First().Name,
                [.. part.Select(one => one.Visit).OrderBy(visit => visit.Unit, VisitOrder.Instance)]
            ));
        return [.. seen.OrderBy(life => life.Site, StringComparer.Ordinal).ThenBy(life => life.Last.Unit)];
    }

    private static IEnumerable<(string Key, string? Name, Visit Visit)> Sittings(
        IReadOnlyList<UnitVisit> visits,
        PartKind kind
    )
    {
        var (current, nameless) = ((string?)null, 0);
        foreach (var visit in visits)
        {
            var written = kind == PartKind.Reel ? visit.Reel : visit.Bedknife;
            if (visit.Fitted.LastOrDefault(part => part.Part == kind) is not { } fitted)
            {
                current = written ?? current;
                yield return (KeyOf(visit, current, nameless), current, new(visit, true, true));
                continue;
            }

            var before = current ?? (written == fitted.Identity ? null : written);
            yield return (KeyOf(visit, before, nameless), before, new(visit, true, false));
            nameless++;
            current = fitted.Identity ?? (written == before ? null : written);
            yield return (KeyOf(visit, current, nameless), current, new(visit, false, true));
        }
    }

    /// <summary>What tells parts apart; those that nobody named, by their unit and how often it was fitted anew.</summary>
    private static string KeyOf(UnitVisit visit, string? name, int nameless) =>
        name is null ? FormattableString.Invariant($"unit {visit.Unit} part {nameless}") : $"part {name}";
}
