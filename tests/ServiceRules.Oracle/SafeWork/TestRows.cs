using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Oracle.SafeWork;

/// <summary>Paragraph (f)(1): the machine energised for a test in the middle of the work.</summary>
internal static class TestRows
{
    public static Possible Clear(Story story, TimelineEventKind look) =>
        Tests(story).Select(t => Clear(story, t, look)).OfAllOrNone();

    /// <summary>Nobody is at work in a test; and nobody does to the unit, in any run, what is done to it by hand.</summary>
    public static Possible HandsOff(Story story)
    {
        var touched = story.Steps.Where(s => IsDoneByHand(story, s) && IsAmidARun(story, s)).ToList();
        var mended = touched.Where(s => s.Kind == TimelineEventKind.SafetyDefectClosed).ToList();
        // Put right in a run, and found before it: by hands between that nobody entered, or in the run.
        touched.RemoveAll(s => mended.Contains(s) && !PutRight.IsInOneRun(story, s));
        return touched.Exists(s => !SharesItsInstant(story, s)) ? Possible.NotMet
            : touched.Count > 0 ? Possible.NeverMet
            : mended.Count > 0 || IsLetOffAmidARun(story) || IsTouchedBeforeTheStop(story)
                ? (AsToldOfWork(story) & Possible.NotMet) | Possible.Unproven
            : AsToldOfWork(story);
    }

    /// <summary>Who shuts a machine down tells that it ran; since when, and past whose hands, is not told.</summary>
    private static bool IsTouchedBeforeTheStop(Story story)
    {
        var said = story.Steps.FirstOrDefault(s => IsStart(s) || IsEnd(s));
        // Where nothing tells that it ran or was stopped, something there may have run all the same.
        return (
                said is null
                    ? story.Isolatable.Any() || story.Additions.Any()
                    : said.Kind == TimelineEventKind.MachineShutDown
            )
            && story
                .Steps.TakeWhile(s => s.At != said?.At && !ShowsStandstill(s))
                .Any(s => s.Kind != TimelineEventKind.StoredEnergyReleased && IsDoneByHand(story, s));
    }

    private static bool IsDoneByHand(Story story, Step step) =>
        step.Kind switch
        {
            TimelineEventKind.ReelWedged or TimelineEventKind.UnitSupported => true,
            TimelineEventKind.GuardsRefitted => true,
            TimelineEventKind.SafetyDefectClosed => PutRight.IsByHand(story, step),
            TimelineEventKind.BlockageClearedByHand or TimelineEventKind.BlockageClearedWithTool => true,
            // What falls, springs back or spins on is held where it is; pressure is let off elsewhere.
            TimelineEventKind.StoredEnergyReleased => new[] { "gravity", "spring", "wheel_rotation" }.Any(
                name =>
                    step.IsOf(name)
                    && (
                        step.Event.Source is not SourceReference.All
                        || story.Sources.Any(s => s.Id.Text == name)
                    )
            ),
            _ => false,
        };

    /// <summary>Pressure is let off at the machine, though not where the blades are.</summary>
    private static bool IsLetOffAmidARun(Story story) =>
        story.Steps.Any(s =>
            s.Kind == TimelineEventKind.StoredEnergyReleased
            && s.Event.Source is SourceReference.One
            && !IsDoneByHand(story, s)
            && IsAmidARun(story, s)
        );

    /// <summary>Running by the last word on it; where its end was never told, only until something shows it stopped.</summary>
    public static bool IsAmidARun(Story story, Step step)
    {
        if (!story.RunsAfter(step))
        {
            return false;
        }

        var start = story.Steps.Last(s => IsStart(s) && s.Before(step));
        bool isEnded =
            story.Steps.FirstOrDefault(s => step.Before(s) && (IsStart(s) || IsEnd(s))) is { } next
            && IsEnd(next);
        return isEnded || !story.Steps.Any(s => start.Before(s) && s.Before(step) && ShowsStandstill(s));
    }

    private static bool ShowsStandstill(Step step) =>
        step.IsIsolation
        || step.IsDeviceOn
        || step.Kind
            is TimelineEventKind.KeyRemoved
                or TimelineEventKind.SeenAtRest
                or TimelineEventKind.PlugRemoved
                or TimelineEventKind.IsolationVerified;

    private static bool SharesItsInstant(Story story, Step step) =>
        story.Steps.Any(s => (IsStart(s) || IsEnd(s)) && s.At == step.At);

    private static bool IsStart(Step step) =>
        step.Kind is TimelineEventKind.TestEnergised or TimelineEventKind.MachineStarted;

    private static bool IsEnd(Step step) =>
        step.Kind is TimelineEventKind.TestEnded or TimelineEventKind.MachineShutDown;

    private static Possible AsToldOfWork(Story story) =>
        RunRows.StartedForATask(story).Any() ? Possible.Judged
        : Tests(story).Any() || !Lapped(story)
            ? Tests(story).Select(t => HandsOff(story, t)).OfAllOrNone()
                | (RunRows.IsDoneOutsideARun(story) ? Possible.NeverMet : Possible.None)
        : story.IsOpen ? Possible.Any & ~Possible.Met
        : Possible.NotMet;

    /// <summary>Lapping turns the reel; a record without the turning shows no hands out of it.</summary>
    private static bool Lapped(Story story) =>
        story.Record.Tasks.Contains(ServiceTask.Lap)
        || story.Steps.Any(s => s.Kind == TimelineEventKind.EnergisedTaskPerformed)
        || story.Record.Units.Any(u => u.Entries.Any(e => e is Grinding { Kind: GrindingKind.Lapping }));

    public static Possible Relocked(Story story) =>
        Tests(story).Concat(RunRows.StartedAmidWork(story)).Select(t => Relocked(story, t)).OfAllOrNone();

    private static IEnumerable<Step> Tests(Story story) =>
        story.Steps.Where(s => s.Kind == TimelineEventKind.TestEnergised);

    private static Step? EndOf(Story story, Step test)
    {
        var next = story.Steps.FirstOrDefault(s =>
            s.Kind
                is TimelineEventKind.TestEnded
                    or TimelineEventKind.TestEnergised
                    or TimelineEventKind.MachineShutDown
            && test.Before(s)
        );
        return next?.Kind == TimelineEventKind.TestEnergised ? null : next;
    }

    private static Possible Clear(Story story, Step test, TimelineEventKind look)
    {
        var stop = story.Spells.Select(s => s.Stop).Where(s => s?.Before(test) == true).MaxBy(s => s!.Place);
        bool strayStop = story.Steps.Any(s =>
            s.Kind == TimelineEventKind.WorkStopped && s.Before(test) && (stop is null || stop.Before(s))
        );
        var looks = story
            .Steps.Where(s => s.Kind == look && s.Before(test) && (stop is null || stop.Before(s)))
            .ToList();
        if (looks.Count == 0)
        {
            return stop is null ? Possible.Any & ~Possible.Met : Possible.NotMet;
        }

        // (f)(1)(i), (ii): "in accordance with" (e)(1), (e)(2), which are actions of the authorised employee.
        var theirs = looks.Where(s => ReleaseRows.IsOfAuthorised(story, s)).ToList();
        if (story.Spells.Any(s => s.Covers(test.Place) && s.Stop is not null))
        {
            return Possible.NotMet;
        }

        if (theirs.Count == 0)
        {
            return ReleaseRows.ByOther(story, looks);
        }

        looks = theirs;

        bool unended = story.Spells.Any(s => s.Covers(test.Place));
        if (unended || story.MayHaveBeenIn(looks[^1]))
        {
            return stop is null && !unended ? Possible.Any : Possible.NeverMet;
        }

        var off = story.Steps.FirstOrDefault(s =>
            s.IsDeviceOff && s.Before(test) && (stop is null || stop.Before(s))
        );
        bool ranBefore = story.Steps.Any(s =>
            s.Kind is TimelineEventKind.TestEnergised or TimelineEventKind.MachineStarted
            && s.Before(test)
            && (stop is null || stop.Before(s))
        );
        return (stop is null ? Possible.Any : Possible.Met).OrStricter(
            stop is null
                || strayStop
                || ranBefore
                || (off is not null && !looks.Any(s => s.Before(off)))
                || looks.All(s => s.At == test.At || s.At == stop.At)
        );
    }

    private static Possible HandsOff(Story story, Step test)
    {
        var end = EndOf(story, test);
        if (test.IsAssumed)
        {
            return story.IsOpen ? Possible.NeverMet : Possible.NotMet;
        }

        bool started = story.Steps.Any(s =>
            s.Kind == TimelineEventKind.WorkStarted && test.Before(s) && (end is null || s.Before(end))
        );
        bool wasIn = story.Spells.Any(s => s.Covers(test.Place));
        bool untold =
            story.Spells.Any(s => s.Covers(test.Place) && s.Stop is null) || story.MayHaveBeenIn(test);
        return started
            ? end is null
                ? Possible.Judged
                : Possible.NotMet
            : untold
                ? Possible.NeverMet
                : wasIn
                    ? Possible.Judged
                    : end is null
                        ? Possible.NeverNotMet
                        : Possible.Met;
    }

    private static Possible Relocked(Story story, Step test)
    {
        if (EndOf(story, test) is not { } end)
        {
            return Possible.Any;
        }

        // Whoever stops work without having started had hands in by then, and since when is not told.
        var stray = story.StrayStops.FirstOrDefault(end.Before);
        var next = story.Steps.FirstOrDefault(s =>
            (s.Kind == TimelineEventKind.WorkStarted || s == stray) && end.Before(s)
        );
        if (next is null)
        {
            return Possible.Any & ~Possible.NotMet;
        }

        var fresh = story.Steps.Where(s => end.Before(s) && s.Before(next)).ToList();
        if (fresh.Any(s => s.Kind is TimelineEventKind.TestEnergised or TimelineEventKind.MachineStarted))
        {
            return Possible.Any;
        }

        var sum = story.Sources.Select(s => Renewed(story, s, test, fresh)).OfAll();
        var late = story.Spells.Any(s => s.Covers(end.Place));
        return next == stray && sum != Possible.NotMet
            ? (sum & ~Possible.Met) | Possible.Unproven
            : (sum == Possible.NotApplicable ? Possible.Any & ~Possible.NotMet : sum).OrStricter(
                late || IsDisordered(fresh)
            );
    }

    private static Possible Renewed(Story story, EnergySource source, Step test, List<Step> fresh)
    {
        if (SequenceRows.HasPlug(story, source))
        {
            return Possible.Judged;
        }

        string id = source.Id.Text;
        bool opened = source.Isolator is not null && WasOpened(story, id, test);
        bool stillOn = source.Isolator is not null && story.DevicesOn(id, test.Place).Count > 0;
        bool neverOn =
            source.Isolator is not null
            && !stillOn
            && !story.Steps.Any(s => s.IsDeviceOn && s.IsOf(id) && s.Before(test));
        bool isolated = fresh.Any(s => s.IsIsolation && s.IsOf(id));
        bool locked = fresh.Any(s => s.IsDeviceOn && s.IsOf(id));
        bool released = fresh.Any(s => s.Kind == TimelineEventKind.StoredEnergyReleased && s.IsOf(id));
        var proofs = fresh.Where(s => s.Kind == TimelineEventKind.IsolationVerified && s.IsOf(id)).ToList();
        bool lacks = (opened && (!isolated || !locked)) || (source.Stored && !released) || proofs.Count == 0;
        if (lacks)
        {
            if (source.Stored && !released && fresh.Any(s => SequenceRows.OtherReleases.Contains(s.Kind)))
            {
                // Let down, propped up, wedged or at rest: whether that releases this source is for a person to say.
                return Possible.Judged;
            }

            bool onlyProofOfAnother =
                proofs.Count == 0
                && !opened
                && !(source.Stored && !released)
                && fresh.Any(s => s.Kind == TimelineEventKind.IsolationVerified);
            return onlyProofOfAnother || neverOn ? Possible.NotMet | Possible.Met : Possible.NotMet;
        }

        return proofs.Any(p => story.Authority(p.By) == Possible.Met)
                ? Possible.Met.OrStricter((stillOn && !isolated) || (neverOn && (!isolated || !locked)))
            : proofs.All(p => story.Authority(p.By) == Possible.NotMet) ? Possible.NotMet
            : story.Context.People.IsEmpty ? Possible.Judged
            : Possible.Unproven;
    }

    /// <summary>A device came off it before the test, and none was left on it.</summary>
    private static bool WasOpened(Story story, string source, Step test) =>
        story.DevicesOn(source, test.Place).Count == 0
        && story.Steps.Any(s => s.IsDeviceOn && s.IsOf(source) && s.Before(test));

    private static bool IsDisordered(List<Step> fresh)
    {
        var proof = fresh.FindLastIndex(s => s.Kind == TimelineEventKind.IsolationVerified);
        return fresh.FindLastIndex(s => s.IsDeviceOff) >= 0
            || fresh
                .Skip(proof + 1)
                .Any(s => s.IsIsolation || s.IsDeviceOn || s.Kind == TimelineEventKind.StoredEnergyReleased)
            || fresh
                .Select(s =>
                    s.IsIsolation ? 1
                    : s.IsDeviceOn ? 2
                    : s.Kind == TimelineEventKind.StoredEnergyReleased ? 3
                    : 0
                )
                .Where(rank => rank > 0)
                .Aggregate((Last: 0, Falls: false), (seen, rank) => (rank, seen.Falls || rank < seen.Last))
                .Falls;
    }
}
