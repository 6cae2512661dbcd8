using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Oracle.SafeWork;

/// <summary>Paragraphs (c)(1) and (d): what comes before the first hands-on work, source by source, and in which order.</summary>
internal static class SequenceRows
{
    private static readonly string[] ControlDevices =
    [
        "stopbutton",
        "keyswitch",
        "selector",
        "seatswitch",
        "hourmeterfob",
        "pushbutton",
        "startbutton",
        "emergencystop",
        "ignitionkey",
        "key",
    ];

    private static readonly string[] StopWords = ["killswitch", "remotestop"];

    // "Other control circuit type devices": what else a machine is told by, where the site has not written it down.
    private static readonly string[] ControlWords = ["lever", "joystick", "pto", "screen", "relay", "cutout"];

    private static readonly string[] DeviceWords =
    [
        "breaker",
        "disconnect",
        "isolator",
        "valve",
        "plug",
        "mainswitch",
        "masterswitch",
    ];

    internal static readonly TimelineEventKind[] OtherReleases =
    [
        TimelineEventKind.UnitsLowered,
        TimelineEventKind.UnitSupported,
        TimelineEventKind.ReelWedged,
        TimelineEventKind.SeenAtRest,
    ];

    public static Possible Isolated(Story story) =>
        story
            .Isolatable.Select(s =>
                HasPlug(story, s) ? PulledPlug(story, s)
                : story.HandsWentIn && IsOnAgain(story, s) ? Possible.NotMet
                : story.BeforeWork.Any(e => e.IsIsolation && e.IsOf(s.Id.Text)) ? Done(story, s)
                : story.Absent
            )
            .OfAllOrNone();

    public static Possible IsolatingDevice(Story story) =>
        story.Steps.Where(s => s.IsIsolation).Select(s => IsolatingDevice(story, s)).OfAllOrNone();

    public static Possible DeviceOn(Story story) =>
        story.Isolatable.Select(s => DeviceOn(story, s)).OfAllOrNone();

    public static Possible HoldsOff(Story story) =>
        story
            .Steps.Where(s => s.Kind == TimelineEventKind.LockApplied && !s.IsOnBox)
            .Select(s =>
                s.Event.Position switch
                {
                    IsolatorPosition.On => Possible.NotMet,
                    _ when TakesNone(story, s) => IsOnUnder(story, s) && s.Event.Position is null
                        ? Possible.NotMet
                        : Possible.Unproven,
                    null => IsOnUnder(story, s) ? Possible.NotMet : Possible.NeverNotMet,
                    _ => Possible.Met,
                }
            )
            .OfAllOrNone();

    /// <summary>An isolator that takes no lock is held by none.</summary>
    private static bool TakesNone(Story story, Step on) =>
        on.Event.Source is SourceReference.One { Source: var id }
        && story.Isolatable.Any(s => s.Id == id && !s.Lockable);

    /// <summary>A lock whose position nobody wrote down, on an isolator last told to be turned on.</summary>
    private static bool IsOnUnder(Story story, Step on) =>
        story.Steps.LastOrDefault(s =>
            s.Kind == TimelineEventKind.IsolatorOperated
            && s.Before(on)
            && (
                on.Event.Source is SourceReference.One { Source: var id }
                    ? s.IsOf(id.Text)
                    : s.Event.Source == on.Event.Source
            )
        )
            is { Event.Position: IsolatorPosition.On };

    /// <summary>Turned off, and turned on again before hands went in: the machine was not cut off.</summary>
    private static bool IsOnAgain(Story story, EnergySource source) =>
        story.BeforeWork.LastOrDefault(s =>
            (s.IsIsolation || s.Kind == TimelineEventKind.IsolatorOperated) && s.IsOf(source.Id.Text)
        )
            is { Event.Position: IsolatorPosition.On };

    public static Possible Released(Story story) =>
        story
            .Stored.Select(s =>
                story.BeforeWork.Any(e =>
                    e.Kind == TimelineEventKind.StoredEnergyReleased
                    && e.IsOf(s.Id.Text)
                    && !Gauge.ContradictsBeforeWork(story, e, s)
                )
                    ? Done(story, s)
                : story.BeforeWork.Any(e => OtherReleases.Contains(e.Kind)) ? Possible.Judged
                : story.Absent
            )
            .OfAllOrNone();

    public static Possible Verified(Story story) =>
        story.Sources.Select(s => Verified(story, s)).OfAllOrNone();

    // Gone through before a run it stays known; a shutdown before a run does not serve work after it.
    public static Possible Reviewed(Story story) => OrAfterARun(story, ReviewedAtAll(story));

    public static Possible ShutDown(Story story) =>
        OrAfterARun(story, ShutDownAtAll(story))
        | (story.Isolatable.Any() ? Possible.None : Possible.NotApplicable);

    private static Possible OrAfterARun(Story story, Possible told) =>
        RanInBetween(story) && told == Possible.NotMet ? Possible.Judged : told;

    private static Possible ReviewedAtAll(Story story)
    {
        var reviews = story
            .Steps.Where(s => s.Kind == TimelineEventKind.EnergyReviewed && !IsByAnother(story, s))
            .ToList();
        if (story.First(TimelineEventKind.MachineShutDown) is not { } down)
        {
            bool isolated = story.Steps.Any(s => s.IsIsolation);
            return reviews.Count > 0 ? Possible.Judged
                : isolated ? story.Absent | Possible.NotMet
                : story.Absent;
        }

        var early = reviews.Where(r => r.At <= down.At).ToList();
        if (early.Count == 0)
        {
            return story.HandsWentIn ? Possible.NotMet
                : story.First(TimelineEventKind.MachineStarted) is null ? Possible.NeverMet
                : Possible.Judged;
        }

        bool shutDownTooLate = story.FirstWork is { } work && work.Before(down);
        var best =
            early.Any(r => story.Authority(r.By) == Possible.Met) ? story.Present
            : early.Any(r => story.Authority(r.By) == Possible.NeverMet) ? Possible.NeverMet
            : Possible.NotMet;
        return best.OrStricter(
            shutDownTooLate || RanInBetween(story) || early.All(r => r.At == down.At && down.Before(r))
        );
    }

    // Gone through by a procedure that is not the machine's, it is not the type and magnitude of this machine's energy.
    private static bool IsByAnother(Story story, Step review) =>
        review.Event.Procedure is { } named
        && story.Procedure is { } written
        && Plain(named) != Plain(written.Id.Text);

    private static Possible ShutDownAtAll(Story story)
    {
        var isolated = story.Steps.FirstOrDefault(s => s.IsIsolation);
        if (story.First(TimelineEventKind.MachineShutDown) is not { } down)
        {
            return isolated is null ? story.Absent : story.Absent | Possible.NotMet;
        }

        return isolated is not null && isolated.Before(down)
            ? isolated.At == down.At
                ? Possible.NotMet | Possible.Met
                : Possible.NotMet
            : story.Present.OrStricter(
                RanInBetween(story) || (story.FirstWork is { } work && work.Before(down))
            );
    }

    /// <summary>Whether the machine ran between a start of the job and some later hands-on work, tests aside.</summary>
    public static bool RanInBetween(Story story) =>
        story.Steps.Any(run =>
            run.Kind == TimelineEventKind.MachineStarted && story.Spells.Any(spell => run.Before(spell.Start))
        )
        || story.BeforeWork.Any(run =>
            run.Kind is TimelineEventKind.TestEnergised or TimelineEventKind.EnergisedTaskPerformed
        );

    /// <summary>A plug pulled or kept stands for isolator and lock in ways that the table does not write down.</summary>
    public static bool HasPlug(Story story, EnergySource source) => HasPlug(story, source.Id.Text);

    /// <summary>The same of a source of which only the name is known.</summary>
    public static bool HasPlug(Story story, string source) =>
        story.Steps.Any(s =>
            s.Kind is TimelineEventKind.PlugRemoved or TimelineEventKind.PlugControlConfirmed
            && (s.Event.Source is null || s.IsOf(source))
        );

    /// <summary>Done before the work; whether it still held is more than the rows ask.</summary>
    private static Possible Done(Story story, EnergySource source) =>
        story.Present.OrStricter(Undone(story, source));

    private static bool Undone(Story story, EnergySource source) =>
        RanInBetween(story)
        || story.BeforeWork.Any(s =>
            (s.IsDeviceOff && (s.IsOf(source.Id.Text) || s.Event.Source is null))
            || (
                s.Kind == TimelineEventKind.IsolatorOperated
                && s.Event.Position == IsolatorPosition.On
                && s.IsOf(source.Id.Text)
            )
        );

    private static Possible IsolatingDevice(Story story, Step operated)
    {
        if (operated.Event.Isolator is not { } kind)
        {
            return Possible.NeverNotMet;
        }

        if (!IsControl(kind))
        {
            return ControlWords.Any(Plain(kind).Contains) || !IsNamedDevice(story, operated, kind)
                ? Possible.Judged
                : Possible.Met;
        }

        var source = story.Sources.FirstOrDefault(s => operated.IsOf(s.Id.Text));
        var others = story
            .Steps.Where(s =>
                s.IsIsolation
                && Equals(s.Event.Source, operated.Event.Source)
                && (s.Event.Isolator is not { } other || !IsControl(other))
                && !Ran(s, operated)
            )
            .ToList();
        return others.Count == 0 ? Possible.NotMet
            : others.Any(s =>
                source?.Isolator is { } named
                && s.Event.Isolator is { } other
                && Plain(named) == Plain(other)
                && (story.FirstWork is null || s.Before(story.FirstWork))
                && !story.Steps.Any(on =>
                    s.Before(on) && on.Before(operated) && on.Event.Position == IsolatorPosition.On
                )
            )
                ? Possible.Met
            : Possible.Judged;

        // What was off before a run keeps nothing out after it.
        bool Ran(Step off, Step then) =>
            story.Steps.Any(s =>
                s.Kind is TimelineEventKind.MachineStarted or TimelineEventKind.TestEnergised
                && !s.IsAssumed
                && off.Before(s)
                && s.Before(then)
            );
    }

    // Paragraph (b): a breaker, a disconnect switch, a line valve, a block "and any similar device"; or the one written down.
    private static bool IsNamedDevice(Story story, Step operated, string kind) =>
        DeviceWords.Any(Plain(kind).Contains)
        || story.Sources.Any(s =>
            operated.IsOf(s.Id.Text) && s.Isolator is { } named && Plain(named) == Plain(kind)
        );

    private static bool IsControl(string kind) =>
        ControlDevices.Contains(Plain(kind)) || StopWords.Any(Plain(kind).Contains);

    private static string Plain(string text) =>
        string.Concat(text.Where(char.IsAsciiLetterOrDigit).Select(char.ToLowerInvariant));

    private static Possible DeviceOn(Story story, EnergySource source)
    {
        if (HasPlug(story, source))
        {
            return KeptPlug(story, source);
        }

        string id = source.Id.Text;
        var isolated = story.BeforeWork.FirstOrDefault(s => s.IsIsolation && s.IsOf(id));
        var devices = story.BeforeWork.Where(s => s.IsDeviceOn && s.IsOf(id)).ToList();
        if (devices.Count == 0)
        {
            return story.Absent;
        }

        if (isolated is null)
        {
            return Possible.Met | story.Absent;
        }

        var after = devices.Where(d => isolated.Before(d)).ToList();
        if (story.HandsWentIn && story.DevicesOn(id, story.FirstWork!.Place).Count == 0)
        {
            // "Between isolator operated and work started": one that came off before is not there.
            return Possible.NotMet;
        }

        return after.Count == 0
            ? devices.Any(d => d.At == isolated.At)
                ? Possible.Judged
                : story.Absent
            : Done(story, source).OrStricter(after.All(d => d.Event.Position == IsolatorPosition.On));
    }

    /// <summary>The same printed minute, seconds not noted on either.</summary>
    private static bool IsInTheMinuteOfWork(Story story, Step step) =>
        story.FirstWork is { } work && step.At == work.At && step.At.Utc is { Second: 0, Millisecond: 0 };

    /// <summary>A plug pulled is off; nothing of it done and no isolator moved is not.</summary>
    private static Possible PulledPlug(Story story, EnergySource source)
    {
        string id = source.Id.Text;
        bool own = story.BeforeWork.Any(s => s.Kind == TimelineEventKind.PlugRemoved && s.IsOf(id));
        bool any = story.BeforeWork.Any(s =>
            (s.Kind == TimelineEventKind.PlugRemoved && s.Event.Source is null)
            || (s.IsIsolation && s.IsOf(id))
        );
        return own && !source.Lockable ? Done(story, source)
            : own || any ? Possible.Judged
            : story.Absent;
    }

    /// <summary>Under somebody's eyes is a device only where no lock fits, and only once the plug is out.</summary>
    private static Possible KeptPlug(Story story, EnergySource source)
    {
        string id = source.Id.Text;
        if (story.BeforeWork.Any(s => s.IsDeviceOn && s.IsOf(id)))
        {
            return Possible.Judged;
        }

        if (source.Lockable)
        {
            return story.Absent;
        }

        var pulled = story.BeforeWork.FirstOrDefault(s =>
            s.Kind == TimelineEventKind.PlugRemoved && s.IsOf(id)
        );
        bool own = story.BeforeWork.Any(s =>
            s.Kind == TimelineEventKind.PlugControlConfirmed && s.IsOf(id) && pulled?.Before(s) == true
        );
        bool unnamed = story.BeforeWork.Any(s =>
            s.Kind is TimelineEventKind.PlugControlConfirmed or TimelineEventKind.PlugRemoved
            && s.Event.Source is null
        );
        bool key = story.BeforeWork.Any(s => s.Kind == TimelineEventKind.KeyRemoved);
        return own ? Done(story, source)
            : unnamed || key || pulled is not null ? Possible.Judged
            : story.Absent;
    }

    private static Possible Verified(Story story, EnergySource source)
    {
        string id = source.Id.Text;
        var proofs = story
            .BeforeWork.Where(s => s.Kind == TimelineEventKind.IsolationVerified && s.IsOf(id))
            .ToList();
        if (proofs.Count == 0)
        {
            bool perhaps = story.Steps.Any(s =>
                s.Kind == TimelineEventKind.IsolationVerified && s.IsOf(id) && IsInTheMinuteOfWork(story, s)
            );
            return perhaps ? Possible.Unproven : story.Absent;
        }

        var device = source.Isolator is null
            ? null
            : story.BeforeWork.FirstOrDefault(s => s.IsDeviceOn && s.IsOf(id));
        var release = story.BeforeWork.LastOrDefault(s =>
            s.Kind == TimelineEventKind.StoredEnergyReleased && s.IsOf(id) && source.Stored
        );
        var good = proofs
            .Where(p =>
                (device is null || device.Before(p))
                && (release is null || release.Before(p))
                && !Gauge.ContradictsBeforeWork(story, p, source)
                && !Walk.IsTriedRunning(story, p)
            )
            .ToList();
        if (good.Count == 0)
        {
            return story.HandsWentIn ? Possible.NotMet : Possible.NeverMet;
        }

        bool somethingIsMissing =
            (source.Isolator is not null && device is null)
            || (source.Isolator is not null && !story.BeforeWork.Any(s => s.IsIsolation && s.IsOf(id)))
            || (source.Stored && release is null);
        // Seconds not noted, the order in which they were entered is all that there is.
        bool strictlyBefore = good.Any(p =>
            story.FirstWork is null || p.At < story.FirstWork.At || IsInTheMinuteOfWork(story, p)
        );
        var best =
            good.Any(p => story.Authority(p.By) == Possible.Met) ? story.Present
            : good.Any(p => story.Authority(p.By) == Possible.NeverMet) ? Possible.NeverMet
            : story.HandsWentIn ? Possible.NotMet
            : Possible.NeverMet;
        return best.OrStricter(somethingIsMissing || !strictlyBefore || Undone(story, source));
    }
}
