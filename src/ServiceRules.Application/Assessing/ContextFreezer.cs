using System.Collections.Immutable;
using ServiceRules.Application.Library;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Application.Assessing;

/// <summary>Takes the slice of the site's registers that one record needs, as they stood on its day.</summary>
public static class ContextFreezer
{
    // A job spans days at most; a year on either side keeps the description short and complete for it.
    private const int YearsAround = 1;

    public static AssessmentContext Freeze(SiteRegisters site, ServiceRecord record)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(record);
        var waivers = site
            .Waivers.Where(w => InForce(w.From, w.Until, record.Date))
            .OrderBy(w => w.Rule, StringComparer.Ordinal)
            .ThenBy(w => w.Unit, StringComparer.Ordinal)
            .ThenBy(w => w.From)
            .ToImmutableArray();
        var people = PeopleOf(record, waivers);
        var locks = record.Timeline.Where(e => e.Lock is not null).Select(e => e.Lock!.Value).ToHashSet();
        return new AssessmentContext
        {
            Site = site.Name,
            Jurisdictions = site.Jurisdictions,
            Zone = Around(site.Zone, record.Date),
            SettingOrders =
            [
                .. site
                    .SettingOrders.Where(o => InForce(o.From, o.Until, record.Date))
                    .OrderBy(o => o.From)
                    .ThenBy(o => o.Id),
            ],
            Procedures =
            [
                .. site
                    .Procedures.Where(p =>
                        p.Place == record.Place
                        && p.Machines.Contains(record.Machine.Id)
                        && InForce(p.From ?? DateOnly.MinValue, p.Until, record.Date)
                    )
                    .OrderBy(p => p.Id),
            ],
            People = [.. site.People.Where(p => people.Contains(p.Id)).OrderBy(p => p.Id)],
            Locks = [.. site.Locks.Where(l => locks.Contains(l.Id)).OrderBy(l => l.Id)],
            Waivers = waivers,
        };
    }

    private static SiteZone Around(SiteZone zone, DateOnly day)
    {
        var from = new DateTimeOffset(day.Year - YearsAround, 1, 1, 0, 0, 0, TimeSpan.Zero);
        var until = new DateTimeOffset(day.Year + YearsAround + 1, 1, 1, 0, 0, 0, TimeSpan.Zero);
        var kept = zone.Transitions.Where(t => t.At.Utc >= from && t.At.Utc < until).ToImmutableArray();
        var trimmed = SiteZone.Of(zone.Name, zone.DataVersion, zone.OffsetMinutesAt(Moment.From(from)), kept);
        return trimmed.TryGet(out var around, out _) ? around : zone;
    }

    private static HashSet<Id<Participant>> PeopleOf(ServiceRecord record, ImmutableArray<Waiver> waivers) =>
        [
            .. record.People.Select(p => p.Id),
            .. record.Timeline.Select(e => e.Actor),
            .. record.Timeline.SelectMany(e => e.Others),
            .. record.Releases.Select(r => r.By),
            .. waivers.Select(w => w.By),
        ];

    private static bool InForce(DateOnly from, DateOnly? until, DateOnly day) =>
        from <= day && (until is null || day <= until);
}
