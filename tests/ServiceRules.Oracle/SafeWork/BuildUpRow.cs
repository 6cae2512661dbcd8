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

    /// <summary>"A rising reading over the limit with no action" is the breach; a look that tells nothing shows nothing.</summary>
    private static Possible Read(Story story, EnergySource source)
    {
        if (source.RecheckLimit is null)
        {
            return Possible.NotApplicable;
        }

        bool silent = story.Steps.Any(s =>
            s.Kind == TimelineEventKind.StoredEnergyRechecked
            && s.IsOf(source.Id.Text)
            && s.Event.Pressure is null
        );
        var alarms = story.Steps.Where(s => Gauge.IsHigh(s, source)).ToList();
        return alarms.Exists(a => IsIgnored(story, source, a)) ? Possible.NotMet
            : alarms.Exists(story.MayHaveBeenIn) ? Possible.Judged
            : silent ? Possible.Unproven
            : Possible.Met;
    }

    /// <summary>
    /// Somebody who was in stays in for more than two minutes or while anything else goes on; or somebody goes in again to
    /// what was not let off and then seen to be low.
    /// </summary>
    private static bool IsIgnored(Story story, EnergySource source, Step alarm)
    {
        var within = story.Spells.Where(spell => spell.Covers(alarm.Place)).ToList();
        bool stays = within.Exists(spell =>
            spell.Stop is not { } stop
            || stop.At - alarm.At > TimeSpan.FromMinutes(2)
            || story.Steps.Any(s =>
                alarm.Before(s) && s.Before(stop) && s.Kind != TimelineEventKind.WorkStopped
            )
        );
        if (stays)
        {
            return true;
        }

        var back = story.Steps.FirstOrDefault(s =>
            s.Kind == TimelineEventKind.WorkStarted && alarm.Before(s)
        );
        if (back is null)
        {
            return false;
        }

        var meanwhile = story.Steps.Where(s => alarm.Before(s) && s.Before(back)).ToList();
        var letOff = meanwhile.Find(s =>
            s.Kind == TimelineEventKind.StoredEnergyReleased
            && s.IsOf(source.Id.Text)
            && !Gauge.IsHigh(s, source)
        );
        return letOff is null || !meanwhile.Exists(s => s.Place >= letOff.Place && Gauge.IsLow(s, source));
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
        var told = WithReadings(story, source, minutes, byAuthorised);
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

    /// <summary>"Repeated checks with readings": where a limit is stated, to try again whether it is dead reads nothing.</summary>
    private static Possible WithReadings(Story story, EnergySource source, int minutes, List<Step> checks)
    {
        var told = Watched(story, source, minutes, checks);
        if (source.RecheckLimit is null || !told.HasFlag(Possible.Met))
        {
            return told;
        }

        var without = Watched(
            story,
            source,
            minutes,
            [
                .. checks.Where(s =>
                    s.Kind != TimelineEventKind.IsolationVerified
                    || s.Event.Pressure is not null
                    || !story.Steps.Any(earlier =>
                        earlier.Kind == TimelineEventKind.IsolationVerified
                        && earlier.IsOf(source.Id.Text)
                        && earlier.Before(s)
                    )
                    || IsOfNewIsolation(story, source, s)
                ),
            ]
        );
        return !without.HasFlag(Possible.NotMet) ? told
            : without.HasFlag(Possible.Met) ? told | Possible.Unproven
            : (told & ~Possible.Met) | Possible.Unproven;
    }

    /// <summary>The proof before hands go in: none were in before, or it was locked or let off anew since they were.</summary>
    private static bool IsOfNewIsolation(Story story, EnergySource source, Step proof)
    {
        if (story.Spells.Any(spell => spell.Covers(proof.Place)))
        {
            return false;
        }

        var earlier = story.Spells.Where(spell => spell.Start.Before(proof)).ToList();
        int since = earlier.Count == 0 ? -1 : earlier.Max(spell => spell.End);
        return since < 0
            || story.Steps.Any(s =>
                s.Place > since
                && s.Before(proof)
                && (
                    s.IsDeviceOn
                    || (s.Kind == TimelineEventKind.StoredEnergyReleased && s.IsOf(source.Id.Text))
                )
            );
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
