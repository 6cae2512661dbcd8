using System.Collections.Immutable;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Application.Authoring;

/// <summary>The clock that a site is given, for the years that it is kept.</summary>
public static class SiteClock
{
    // For records that are entered afterwards.
    private const int YearsBefore = 2;

    // Laws on clocks change sooner.
    private const int YearsAfter = 10;

    /// <summary>The first year for which it is kept.</summary>
    /// <param name="today">The day on which it is computed.</param>
    public static int FirstYear(DateOnly today) => today.Year - YearsBefore;

    /// <summary>The last year for which it is kept.</summary>
    /// <param name="today">The day on which it is computed.</param>
    public static int LastYear(DateOnly today) => today.Year + YearsAfter;

    /// <summary>Computes it; null: it cannot be.</summary>
    /// <param name="name">The name of the zone; null: not said.</param>
    /// <param name="zoneData">The version of the zone data; null: as this machine says.</param>
    /// <param name="today">The day.</param>
    /// <param name="wrong">Everything that stands against it.</param>
    public static SiteZone? Of(
        string? name,
        string? zoneData,
        DateOnly today,
        out ImmutableArray<string> wrong
    )
    {
        var zone = name is null ? null : KnownZones.Find(name);
        var version = zoneData ?? KnownZones.Version();
        ImmutableArray<string> against =
        [
            .. name is null
                ?
                [
                    "--time-zone is not given: which clock the site goes by; accepted: `--time-zone America/Chicago`",
                ]
            : zone is null ? [KnownZones.NotThere(name)]
            : Array.Empty<string>(),
            .. version is null
                ?
                [
                    "--zone-data: this machine does not say of which version its zone data is; accepted: `--zone-data 2025b`, or in words where it is from",
                ]
                : Array.Empty<string>(),
        ];
        SiteZone? frozen = null;
        if (
            zone is not null
            && version is not null
            && !FrozenZone
                .Of(zone, version, FirstYear(today), LastYear(today))
                .TryGet(out frozen, out var failure)
        )
        {
            against = [.. against, $"--time-zone, --zone-data: {failure}"];
        }

        wrong = against;
        return frozen;
    }

    internal static DateTimeOffset FirstMoment(DateOnly today) =>
        new(FirstYear(today), 1, 1, 0, 0, 0, TimeSpan.Zero);
}
