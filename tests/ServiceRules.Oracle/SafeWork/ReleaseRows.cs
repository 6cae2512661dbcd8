using ServiceRules.Domain.Timeline;

namespace ServiceRules.Oracle.SafeWork;

/// <summary>Paragraphs (c)(9) and (e)(1), (e)(2): telling people, looking round, seeing people clear.</summary>
internal static class ReleaseRows
{
    public static Possible ToldBefore(Story story)
    {
        if (NobodyToTell(story))
        {
            return story.Affected.Any() ? Possible.Any & ~Possible.NotMet : Possible.NotApplicable;
        }

        var first = BeforeTheFirst(story);
        var again = HungAgain(story).Select(one => Again(story, one.Back, one.On)).OfAll();
        return again == Possible.NotApplicable ? first : first.And(again);
    }

    // The machine that went back to its people is taken from them once more.
    private static IEnumerable<(Step Back, Step On)> HungAgain(Story story) =>
        from back in story.Steps
        where back.Kind == TimelineEventKind.HandedBack
        let next = story.Steps.FirstOrDefault(s => back.Before(s) && IsControl(s))
        where
            next is not null
            && !story.Steps.Any(s =>
                s.Kind == TimelineEventKind.HandedBack && back.Before(s) && s.Before(next)
            )
        select (back, next);

    private static bool IsControl(Step step) =>
        step.IsDeviceOn || step.Kind == TimelineEventKind.PlugControlConfirmed;

    private static Possible Again(Story story, Step back, Step on) =>
        ReachEverybody(
            story,
            story.Steps.Where(s =>
                IsNotice(s, TimelineEventKind.AffectedNotifiedBefore) && s.At >= back.At && s.At <= on.At
            )
        )
            ? Possible.Met
            : Possible.NotMet;

    private static Possible BeforeTheFirst(Story story)
    {
        var device = story.Steps.First(s => s.IsDeviceOn);
        return ReachEverybody(
            story,
            story.Steps.Where(s => IsNotice(s, TimelineEventKind.AffectedNotifiedBefore) && s.At <= device.At)
        )
            ? Possible.Met.OrStricter(
                story
                    .Steps.Where(s =>
                        IsNotice(s, TimelineEventKind.AffectedNotifiedBefore) && s.At <= device.At
                    )
                    .All(s => device.Before(s))
            )
            : Possible.NotMet | (story.HandsWentIn ? Possible.None : Possible.Unproven);
    }

    public static Possible ToldAfter(Story story)
    {
        if (NobodyToTell(story))
        {
            return story.Affected.Any() ? Possible.Any & ~Possible.NotMet : Possible.NotApplicable;
        }

        if (story.Steps.LastOrDefault(s => s.IsDeviceOff && story.WasOn(s)) is not { } removal)
        {
            return NotYet(story);
        }

        bool told = ReachEverybody(
            story,
            story.Steps.Where(s => IsNotice(s, TimelineEventKind.RemovalNotified) && removal.Before(s))
        );
        return told ? (Possible.Met | Open(story)).OrStricter(IsFollowedByStray(story, removal))
            : IsFinal(story, removal) && !IsFollowedByStray(story, removal) ? Lacking(story)
            : Possible.Any;
    }

    public static Possible ToldBeforeStart(Story story)
    {
        if (NobodyToTell(story))
        {
            return story.Affected.Any() ? Possible.Any & ~Possible.NotMet : Possible.NotApplicable;
        }

        if (story.Steps.LastOrDefault(s => s.IsDeviceOff && story.WasOn(s)) is not { } removal)
        {
            return NotYet(story);
        }

        var start = story.Steps.FirstOrDefault(s =>
            s.Kind == TimelineEventKind.MachineStarted && removal.Before(s)
        );
        var told = story
            .Steps.Where(s => IsNotice(s, TimelineEventKind.RemovalNotified) && removal.Before(s))
            .ToList();
        if (start is null)
        {
            bool startedBefore = story.Steps.Any(s => s.Kind == TimelineEventKind.MachineStarted);
            return told.Count > 0
                ? Possible.Any & ~Possible.NotMet | (startedBefore ? Possible.NotMet : Possible.None)
                : Possible.NeverMet | Possible.NotApplicable;
        }

        return ReachEverybody(story, told.Where(s => s.Before(start)))
                ? (Possible.Met | Open(story)).OrStricter(
                    IsFollowedByStray(story, removal)
                        || told.All(s => s.At == removal.At || s.At == start.At)
                        || story.Steps.Any(s =>
                            s.Kind == TimelineEventKind.MachineStarted
                            && s.Before(removal)
                            && story.Steps.First(on => on.IsDeviceOn).Before(s)
                        )
                )
            : IsFinal(story, removal) ? Possible.NotMet
            : Possible.Any;
    }

    public static Possible Clear(Story story, TimelineEventKind look)
    {
        if (!story.UsedDevices)
        {
            return Possible.Any & ~Possible.NotMet;
        }

        if (story.LastStop is not { } stop)
        {
            return Possible.Any;
        }

        var removal = story.Steps.FirstOrDefault(s =>
            s.IsDeviceOff && !s.IsForTest && stop.Before(s) && story.WasOn(s)
        );
        var looks = story.Steps.Where(s => s.Kind == look && stop.Before(s)).ToList();
        if (looks.Count > 0 && story.HasStrayRemoval(stop, looks[0]))
        {
            return Possible.Any;
        }

        // (e): "actions taken by the authorized employee(s)".
        bool byOther = !looks.Any(s => (removal is null || s.Before(removal)) && IsOfAuthorised(story, s));
        if (removal is null)
        {
            return looks.Count > 0 && byOther ? Possible.Any
                : looks.Count > 0
                    ? (Possible.Any & ~Possible.NotMet).OrStricter(
                        story.Steps.Any(s =>
                            (
                                s.Kind is TimelineEventKind.MachineStarted or TimelineEventKind.HandedBack
                                || (s.IsForTest && stop.Before(s))
                            ) && s.Before(looks[^1])
                        )
                    )
                : story.IsOpen ? Possible.Any & ~Possible.Met
                : Possible.NeverMet | Possible.NotApplicable;
        }

        bool stirred = story.Steps.Any(s =>
            stop.Before(s)
            && (
                s.IsForTest
                || s.Kind
                    is TimelineEventKind.TestEnergised
                        or TimelineEventKind.MachineStarted
                        or TimelineEventKind.HandedBack
                    && s.Before(looks.LastOrDefault() ?? removal)
            )
        );
        return looks.Any(s => s.Before(removal)) && byOther ? ByOther(story, looks)
            : looks.Any(s => s.Before(removal))
                ? (Possible.Met | Open(story)).OrStricter(
                    stirred || looks.All(s => s.At == removal.At || s.At == stop.At)
                )
            : Lacking(story);
    }

    // A site without a register has nobody to hold it against.
    internal static bool IsOfAuthorised(Story story, Step look) =>
        story.Context.People.IsEmpty
        || (
            story.Authority(look.By) == Possible.Met
            && story.Person(look.By) is { } person
            && !(person.TrainedOn > story.Day)
            && !(person.TrainedUntil < story.LastDay)
        );

    // Of whoever has hands in another row asks it, and this one need not.
    internal static Possible ByOther(Story story, IEnumerable<Step> looks) =>
        looks.Any(look =>
            story.Workers.Contains(look.By)
            || story.Touches.Any(touch => touch.By == look.By)
            || story.Authority(look.By) == Possible.Met
        )
            ? Possible.Any
            : Possible.NeverMet;

    /// <summary>Guards are back after the last work, and before the machine is started or handed back.</summary>
    public static Possible GuardsBack(Story story)
    {
        if (story.LastStop is not { } stop)
        {
            return story.IsOpen
                    ? (Possible.Any & ~Possible.NotMet).OrStricter(
                        story.Steps.Any(s =>
                            s.Kind is TimelineEventKind.MachineStarted or TimelineEventKind.HandedBack
                        )
                    )
                : story.HandsWentIn ? Possible.NeverMet
                : Possible.Any;
        }

        var end = story.Steps.FirstOrDefault(s =>
            stop.Before(s) && s.Kind is TimelineEventKind.MachineStarted or TimelineEventKind.HandedBack
        );
        bool inTime = story.Steps.Any(s =>
            s.Kind == TimelineEventKind.GuardsRefitted && stop.Before(s) && (end is null || s.Before(end))
        );
        // Whoever puts them back and then stops may have done so last of all; whether, what they did besides tells.
        bool perhapsLast = story.Steps.Any(s =>
            s.Kind == TimelineEventKind.GuardsRefitted
            && s.By == stop.By
            && s.Before(stop)
            && stop.At.Utc - s.At.Utc <= TimeSpan.FromMinutes(5)
        );
        return inTime ? Possible.Met
            : perhapsLast ? Possible.Judged
            : story.IsOpen && end is null ? Possible.Unproven
            : Possible.NotMet;
    }

    /// <summary>To tell oneself is no notice.</summary>
    private static bool IsNotice(Step step, TimelineEventKind kind) =>
        step.Kind == kind
        && (step.Event.Others.IsEmpty || step.Event.Others.Any(other => other.Text != step.By));

    /// <summary>Everybody affected was named, or somebody gave notice without naming anybody.</summary>
    private static bool ReachEverybody(Story story, IEnumerable<Step> notices)
    {
        var all = notices.ToList();
        var named = all.SelectMany(s => s.Event.Others.Select(o => o.Text).Append(s.By)).ToHashSet();
        return all.Exists(s => s.Event.Others.IsEmpty)
            || (all.Count > 0 && story.Affected.All(named.Contains));
    }

    /// <summary>Something of which the record does not show that it was on comes off still later.</summary>
    private static bool IsFollowedByStray(Story story, Step removal) =>
        story.Steps.Any(s => s.IsDeviceOff && removal.Before(s));

    /// <summary>Whether nobody's hands went in after a removal, so that it was not for a test or a change of shift.</summary>
    private static bool IsFinal(Story story, Step removal) =>
        !removal.IsForTest && story.Spells.All(s => s.Start.Before(removal));

    /// <summary>On an open job a step may still come; until the machine is started nothing is too late.</summary>
    private static Possible Lacking(Story story) => story.IsOpen ? Possible.NeverMet : Possible.NotMet;

    private static Possible Open(Story story) => story.IsOpen ? Possible.Unproven : Possible.None;

    private static Possible NotYet(Story story) =>
        story.IsOpen && !story.Steps.Any(s => s.IsDeviceOff) ? Possible.Any & ~Possible.NotMet : Possible.Any;

    /// <summary>
    /// With no device ever on, row (d)(4)(i) says it; with nobody affected there is nobody to tell.
    /// </summary>
    private static bool NobodyToTell(Story story) => !story.UsedDevices || !story.Affected.Any();
}
