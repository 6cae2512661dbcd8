using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Oracle.SafeWork;

/// <summary>Paragraph (d)(5)(ii): what can build up again is looked at again, at the interval of the procedure.</summary>
internal static class BuildUpRow
{
    public static Possible Judge(Story story) =>
        story
            .Sources.Where(s => s.Reaccumulates)
            .Select(s => story.HandsWentIn ? Judge(story, s) : Possible.Any & ~Possible.NotMet)
            .OfAllOrNone();

    private static Possible Judge(Story story, EnergySource source)
    {
        var told = Watched(story, source);
        return story.StrayStops.Any() && told != Possible.NotMet
            ? (told & ~Possible.Met) | Possible.Unproven
            : told;
    }

    private static Possible Watched(Story story, EnergySource source)
    {
        if (source.RecheckMinutes is not { } minutes)
        {
            return Possible.NeverNotMet;
        }

        string id = source.Id.Text;
        var checks = story
            .Steps.Where(s =>
                s.Kind is TimelineEventKind.IsolationVerified or TimelineEventKind.StoredEnergyRechecked
                && s.IsOf(id)
            )
            .ToList();
        var first = story.BeforeWork.LastOrDefault(s => checks.Contains(s));
        if (first is null)
        {
            return Possible.Judged;
        }

        var limit = TimeSpan.FromMinutes(minutes);
        var end = story.LastStop?.At ?? story.Steps[^1].At;
        bool anyGap = Gaps(checks, first, end).Any(g => g.Until - g.From > limit);
        bool gapWithHandsIn = story.Spells.Any(spell => IsUnwatched(story, spell, checks, limit));
        bool oddReading = story.Steps.Any(s =>
            s.Kind == TimelineEventKind.StoredEnergyRechecked && s.Event.Pressure is not null && s.IsOf(id)
        );
        bool released = story.Steps.Any(s =>
            s.Kind == TimelineEventKind.StoredEnergyReleased && s.IsOf(id) && story.FirstWork!.Before(s)
        );
        if (gapWithHandsIn)
        {
            return released ? Possible.Judged
                : story.LastStop is null ? Possible.NeverMet
                : Possible.NotMet;
        }

        return Possible.Met.OrStricter(anyGap || oddReading)
            | (story.LastStop is null || oddReading ? Possible.Unproven : Possible.None);
    }

    private static IEnumerable<(Moment From, Moment Until)> Gaps(List<Step> checks, Step first, Moment end)
    {
        var from = first.At;
        foreach (var check in checks.Where(c => first.Before(c)))
        {
            yield return (from, check.At);
            from = check.At;
        }

        if (from < end)
        {
            yield return (from, end);
        }
    }

    /// <summary>Hands were in at some moment more than the interval after the last look.</summary>
    private static bool IsUnwatched(Story story, Spell spell, List<Step> checks, TimeSpan limit)
    {
        var until = spell.Stop?.At ?? story.Steps[^1].At;
        var from = checks.LastOrDefault(c => c.Before(spell.Start))?.At;
        foreach (var check in checks.Where(c => spell.Start.Before(c) && c.At < until))
        {
            if (from is { } last && check.At - last > limit)
            {
                return true;
            }

            from = check.At;
        }

        return from is { } seen && until - seen > limit;
    }
}
