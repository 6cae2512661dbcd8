using ServiceRules.Domain.Timeline;

namespace ServiceRules.Oracle.SafeWork;

/// <summary>Paragraph (e)(3) with its exception, (f)(1)(iii) and (f)(2)(ii): whose device, and who took it off.</summary>
internal static class OwnerRows
{
    public static Possible ByOwner(Story story) =>
        Removals(story).Select(r => ByOwner(story, r)).OfAllOrNone();

    public static Possible Absent(Story story) =>
        Claims(story)
            .Select(r =>
                story.WasHungByTwo(r.On) || story.Touches.Any(touch => touch.By == r.On.By) ? Possible.Any
                : About(story, r, TimelineEventKind.AbsenceConfirmed).Any(s => s.Before(r.Off))
                    ? Possible.Met.OrStricter(
                        OwnerWasThere(story, r)
                            || OwnerCameSoon(story, r)
                            || !About(story, r, TimelineEventKind.AbsenceConfirmed).Any(s => s.At < r.Off.At)
                            || MayNotBeTheirs(story, r, TimelineEventKind.AbsenceConfirmed)
                    )
                : Possible.NotMet
            )
            .OfAll();

    public static Possible Sought(Story story) =>
        Claims(story)
            .Select(r =>
                story.WasHungByTwo(r.On) ? Possible.Any
                : About(story, r, TimelineEventKind.ContactAttempted).Any()
                    ? Possible.Met.OrStricter(MayNotBeTheirs(story, r, TimelineEventKind.ContactAttempted))
                : story.IsOpen ? Possible.NeverMet
                : Possible.NotMet
            )
            .OfAll();

    public static Possible Told(Story story) =>
        Claims(story)
            .Select(r =>
                story.WasHungByTwo(r.On)
                    ? Possible.Any
                    : Told(story, r).OrStricter(MayNotBeTheirs(story, r, TimelineEventKind.OwnerInformed))
            )
            .OfAll();

    /// <summary>One of the steps is by somebody whom the register does not show as one to make it: the row names the employer's hand.</summary>
    private static bool MayNotBeTheirs(Story story, (Step Off, Step On) r, TimelineEventKind kind) =>
        About(story, r, kind)
            .Any(s =>
                story.Person(s.By) is not ({ Authorised: true } or { MayRelease: true })
                && story.Context.RemovalException?.Trained.Any(p => p.Text == s.By) != true
            );

    public static Possible ByOwnerForTest(Story story)
    {
        var all = Removals(story).ToList();
        var forTest = all.Where(r => r.Off.IsForTest).ToList();
        return forTest.Count == 0
            ? all.Any(r => IsAnothers(story, r))
                ? Possible.Any
                : Possible.Any & ~Possible.NotMet
            : forTest
                .Select(r =>
                    r.On is null || story.WasHungByTwo(r.On) ? Possible.Any
                    : r.On.By == r.Off.By ? Possible.Met
                    : IsJobLock(story, r.Off) ? Possible.Judged
                    : Possible.NotMet
                )
                .OfAll()
                .OrStricter(all.Any(r => !r.Off.IsForTest && IsAnothers(story, r)));
    }

    /// <summary>Whoever took it off is not, or may not be, whoever put it on.</summary>
    private static bool IsAnothers(Story story, (Step Off, Step? On) r) =>
        r.On is not { } on || on.By != r.Off.By || story.WasHungByTwo(on);

    public static Possible OutsideDeviceLeftAlone(Story story)
    {
        var theirs = Removals(story)
            .Where(r =>
                (r.On is { } on && (story.IsOutside(on.By) || story.WasHungByTwo(on)))
                || (story.Lock(r.Off.Device)?.Owner is { } owner && story.IsOutside(owner.Text))
            )
            .ToList();
        // Whose it is that two put on, one of them from outside, the row does not say.
        bool maybeTheirs = Removals(story)
            .Any(r =>
                r.On is { } on
                && story.Steps.Any(s =>
                    s.IsDeviceOn
                    && s.Device == on.Device
                    && s.Before(r.Off)
                    && s.By != on.By
                    && story.IsOutside(s.By)
                )
            );
        return theirs.Count == 0 || maybeTheirs
            ? maybeTheirs
                ? Possible.Any
                : Possible.Any & ~Possible.NotMet
            : theirs
                .Select(r =>
                    r.On is null
                    || !story.IsOutside(r.On.By)
                    || story.Steps.Any(s => s.IsDeviceOn && s.Device == r.On.Device && s.By != r.On.By)
                        ? Possible.Any
                    : story.IsOutside(r.Off.By) ? Possible.Met
                    : story.Person(r.Off.By) is null ? Possible.Judged
                    : r.Off.Event.Exception is not null && ByOwner(story, r) != Possible.NotMet
                        ? Possible.Judged
                    : Possible.NotMet
                )
                .OfAll();
    }

    private static IEnumerable<(Step Off, Step? On)> Removals(Story story) =>
        story.Steps.Where(s => s.IsDeviceOff).Select(off => (off, story.LastOn(off)));

    /// <summary>Removals of another person's device under a claimed exception.</summary>
    private static IEnumerable<(Step Off, Step On)> Claims(Story story) =>
        Removals(story)
            .Where(r => r.Off.Event.Exception is not null && r.On is { } on && on.By != r.Off.By)
            .Select(r => (r.Off, r.On!));

    // One device at two places at once: the table does not say which of the two came off.
    private static bool HungItThereToo(Story story, Step off, Step on) =>
        !Equals(on.Event.Source, off.Event.Source)
        && story.Steps.Any(s =>
            s.IsDeviceOn
            && s.Device == off.Device
            && s.By == off.By
            && Equals(s.Event.Source, off.Event.Source)
            && s.Before(off)
        );

    private static bool IsJobLock(Story story, Step step) =>
        story.Lock(step.Device) is { Owner: null, IsTag: false };

    private static Possible ByOwner(Story story, (Step Off, Step? On) r)
    {
        if (r.On is not { } on)
        {
            return story.Lock(r.Off.Device)?.Owner?.Text == r.Off.By
                ? Possible.Any & ~Possible.NotMet
                : Possible.Any;
        }

        if (story.WasHungByTwo(on) || HungItThereToo(story, r.Off, on))
        {
            return Possible.Judged;
        }

        if (on.By == r.Off.By)
        {
            return Possible.Met;
        }

        if (IsJobLock(story, r.Off))
        {
            return Possible.Judged;
        }

        if (r.Off.Event.Exception is not { } claimed)
        {
            return Possible.NotMet;
        }

        var claim = (r.Off, on);
        bool broken =
            !About(story, claim, TimelineEventKind.AbsenceConfirmed).Any(s => s.Before(r.Off))
            || !About(story, claim, TimelineEventKind.ContactAttempted).Any()
            || Told(story, claim) == Possible.NotMet;
        if (broken)
        {
            return story.IsOpen ? Possible.NeverMet : Possible.NotMet;
        }

        bool doubtful =
            new[]
            {
                TimelineEventKind.AbsenceConfirmed,
                TimelineEventKind.ContactAttempted,
                TimelineEventKind.OwnerInformed,
            }.Any(kind => MayNotBeTheirs(story, claim, kind))
            || story.Context.RemovalException is not { } text
            || text.Id != claimed
            || text.Trained.All(p => p.Text != r.Off.By)
            || OwnerWasThere(story, claim)
            || !About(story, claim, TimelineEventKind.ContactAttempted).Any(s => s.Before(r.Off))
            || Told(story, claim) != Possible.Met;
        return doubtful ? Possible.Judged : Possible.Met;
    }

    private static Possible Told(Story story, (Step Off, Step On) r)
    {
        var told = About(story, r, TimelineEventKind.OwnerInformed)
            .Where(s => r.Off.Before(s))
            .OrderBy(s => s.Place)
            .FirstOrDefault();
        var back = story.Steps.FirstOrDefault(s =>
            s.Kind == TimelineEventKind.ResumedWork && s.By == r.On.By && r.Off.Before(s)
        );
        var seen = story.Steps.FirstOrDefault(s => s.By == r.On.By && r.Off.Before(s));
        if (back is not null)
        {
            return told is null || back.Before(told)
                ? told is not null && told.At == back.At
                    ? Possible.Judged
                    : Possible.NotMet
                : Possible.Met.OrStricter(seen!.Before(told));
        }

        return told is null
            ? seen is null
                ? story.Record.SignOff?.By.Text == r.On.By
                    ? Possible.Any
                    : Possible.Any & ~Possible.NotMet
                : Possible.NeverMet | Possible.NotApplicable
            : Possible.Met.OrStricter(seen?.Before(told) == true);
    }

    private static IEnumerable<Step> About(Story story, (Step Off, Step On) r, TimelineEventKind kind) =>
        story.Steps.Where(s => s.Kind == kind && (s.Event.Others.IsEmpty || s.Names(r.On.By)));

    /// <summary>The owner shows up in the record at the time at which they are said to be away.</summary>
    private static bool OwnerWasThere(Story story, (Step Off, Step On) r) =>
        story.Steps.Any(s =>
            s.By == r.On.By
            && About(story, r, TimelineEventKind.AbsenceConfirmed).Any(a => a.Before(s))
            && s.Before(r.Off)
        );

    /// <summary>Whoever acts or signs within half an hour of it was not away when their device came off.</summary>
    private static bool OwnerCameSoon(Story story, (Step Off, Step On) r) =>
        story.Steps.Any(s =>
            s.By == r.On.By && r.Off.Before(s) && s.At - r.Off.At <= TimeSpan.FromMinutes(30)
        )
        || story.Record.SignOff?.By.Text == r.On.By
        || story.Record.Units.Any(u => u.Entries.Any(e => e.By?.Text == r.On.By));
}
