using ServiceRules.Application.Library;
using ServiceRules.Domain.Timeline;
using ServiceRules.Formats.Registers;

namespace ServiceRules.Application.Authoring;

/// <summary>
/// Computes the clock of a site anew, out of the zone data of this machine: when the law on clocks has changed, or before the years
/// that are kept are over. What is kept of earlier years stays, since records of those days read by it.
/// </summary>
public static class RenewClock
{
    /// <param name="rules">A folder that is sound and has a site.</param>
    /// <param name="zoneData">The version of the zone data; null: as this machine says.</param>
    /// <param name="today">The day.</param>
    public static AuthoringOutcome Run(LoadedRules rules, string? zoneData, DateOnly today)
    {
        ArgumentNullException.ThrowIfNull(rules);
        var standing = rules.Site!.Zone;
        if (SiteClock.Of(standing.Name, zoneData, today, out var wrong) is not { } computed)
        {
            return new AuthoringOutcome.Refused([.. wrong]);
        }

        var first = Moment.From(SiteClock.FirstMoment(today));
        var joined = SiteZone.Of(
            computed.Name,
            computed.DataVersion,
            standing.FirstOffsetMinutes,
            [
                .. standing.Transitions.Where(move => move.At < first),
                .. standing.OffsetMinutesAt(first) == computed.FirstOffsetMinutes
                    ? []
                    : new[] { new ZoneTransition(first, computed.FirstOffsetMinutes) },
                .. computed.Transitions.Where(move => move.At > first),
            ]
        );
        if (!joined.TryGet(out var zone, out var failure))
        {
            return new AuthoringOutcome.Refused([failure.ToString()]);
        }

        using var draft = FolderDraft.Of(rules.Folder);
        var file = draft.Of(RuleFileKind.Site).First();
        draft.Put(file, draft.Read(file, SiteFormat.Site) with { Zone = zone }, SiteFormat.Site);
        return draft.Keep(rules.Diagnostics);
    }
}
