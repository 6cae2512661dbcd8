using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Application.Authoring;

/// <summary>
/// The wall clock of a place for some years, out of the zone data of this machine: what a site keeps, so that a record reads the
/// same wherever it is judged.
/// </summary>
public static class FrozenZone
{
    // Shorter than any time between two changes of a clock.
    private static readonly TimeSpan Stride = TimeSpan.FromHours(6);

    /// <param name="zone">The zone.</param>
    /// <param name="dataVersion">The version of the zone data.</param>
    /// <param name="from">The first year, from its beginning in UTC.</param>
    /// <param name="through">The last year.</param>
    public static Parsed<SiteZone> Of(TimeZoneInfo zone, string dataVersion, int from, int through)
    {
        ArgumentNullException.ThrowIfNull(zone);
        ArgumentNullException.ThrowIfNull(dataVersion);
        var moves = ImmutableArray.CreateBuilder<ZoneTransition>();
        var at = Beginning(from);
        var end = Beginning(through + 1);
        var first = Offset(zone, at);
        for (var now = first; at < end; )
        {
            var next = at + Stride;
            if (Offset(zone, next) is var then && then != now)
            {
                moves.Add(new(Moment.From(Change(zone, at, next, then)), then));
                now = then;
            }

            at = next;
        }

        return SiteZone.Of(zone.Id, dataVersion, first, moves.ToImmutable());
    }

    private static DateTimeOffset Beginning(int year) => new(year, 1, 1, 0, 0, 0, TimeSpan.Zero);

    private static int Offset(TimeZoneInfo zone, DateTimeOffset at) =>
        (int)Math.Round(zone.GetUtcOffset(at).TotalMinutes);

    // To the second: the first at which clocks show the new offset.
    private static DateTimeOffset Change(TimeZoneInfo zone, DateTimeOffset old, DateTimeOffset late, int then)
    {
        while ((late - old).TotalSeconds > 1)
        {
            var middle = old.AddSeconds(Math.Floor((late - old).TotalSeconds / 2));
            (old, late) = Offset(zone, middle) == then ? (old, middle) : (middle, late);
        }

        return late;
    }
}
