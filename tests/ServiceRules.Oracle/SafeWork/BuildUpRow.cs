using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Oracle.SafeWork;

/// <summary>Paragraph (d)(5)(ii): what can build up again is looked at again, at the interval of the procedure.</summary>
internal static class BuildUpRow
{
    public static Possible Judge(Story story) =>
        story
            .Sources.Where(s => s.Reaccumulates)
            .Select(s =>
                story.HandsWentIn ? Judge(story, s).And(Read(story, s)) : Possible.Any & ~Possible.NotMet
            )
            .OfAllOrNone();

    /// <summary>"A rising reading over the limit with no action": hands out, or the pressure let off, is one.</summary>
    private static Possible Read(Story story, EnergySource source)
    {
        if (source.RecheckLimit is not { } limit)
        {
            return Possible.NotApplicable;
        }

        string id = source.Id.Text;
        var looks = story
            .Steps.Where(s => s.Kind == TimelineEventKind.StoredEnergyRechecked && s.IsOf(id))
            .ToList();
        var high = looks.Where(s => s.Event.Pressure > limit).ToList();
        bool silent = looks.Exists(s => s.Event.Pressure is null);
        bool ignored = high.Exists(s =>
            story.Spells.Any(spell => spell.Covers(s.Place))
            && story.Steps.FirstOrDefault(next => s.Before(next)) is { } next
            && next.Kind is not (TimelineEventKind.WorkStopped or TimelineEventKind.StoredEnergyReleased)
        );
        return ignored ? Possible.NotMet
            : high.Count > 0 ? Possible.Judged
            : silent ? Possible.Unproven
            : Possible.Met;
    }

    private static Possible Judge(Story story, EnergySource source)
    {
        var told = Watched(story, source);
        return story.StrayStops.Any() && told != Possible.NotMet
            ? (told & ~Possible.Met) | Possible.Unproven
            : told;
    }

    /// <summary>A look by somebody who may not look is none; of somebody whom nobody knows it cannot be said.</summary>
    private static Possible Watched(Story story, EnergySource source)
    {
        if (source.RecheckMinutes is not { } minutes)
        {
            return Possible.NeverNotMet;
        }

        string id = source.Id.Text;
        var looks = story
            .Steps.Where(s =>
                s.Kind is TimelineEventKind.IsolationVerified or TimelineEventKind.StoredEnergyRechecked
                && s.IsOf(id)
            )
            .ToList();
        var byAuthorised = looks.Where(s => story.Authority(s.By) == Possible.Met).ToList();
        var told = Watched(story, source, minutes, byAuthorised);
        return looks.Exists(s => story.Authority(s.By) == Possible.NeverMet)
            ? told
                | Watched(
                    story,
                    source,
                    minutes,
                    [.. looks.Where(s => story.Authority(s.By) != Possible.NotMet)]
                )
            : told;
    }

    private static Possible Watched(Story story, EnergySource source, int minutes, List<Step> checks)
    {
        string id = source.Id.Text;
        var first = story.BeforeWork.LastOrDefault(s => checks.Contains(s));
        if (first is null && !checks.Any(c => story.LastStop is not { } ended || c.Before(ended)))
        {
            // There is nothing of which to "keep verifying": no check before hands were out again.
            return story.LastStop is null ? Possible.NeverMet : Possible.NotMet;
        }

        var limit = TimeSpan.FromMinutes(minutes);
        var end = story.LastStop?.At ?? story.Steps[^1].At;
        bool anyGap = first is null || Gaps(checks, first, end).Any(g => g.Until - g.From > limit);
        bool gapWithHandsIn = story.Spells.Any(spell => IsUnwatched(story, spell, checks, limit));
        bool oddReading =
            source.RecheckLimit is null
            && story.Steps.Any(s =>
                s.Kind == TimelineEventKind.StoredEnergyRechecked
                && s.Event.Pressure is not null
                && s.IsOf(id)
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
        var from = checks.LastOrDefault(c => c.Before(spell.Start))?.At ?? spell.Start.At;
        foreach (var check in checks.Where(c => spell.Start.Before(c) && c.At < until))
        {
            if (check.At - from > limit)
            {
                return true;
            }

            from = check.At;
        }

        return until - from > limit;
    }
}
