using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Oracle.SafeWork;

/// <summary>
/// Everybody's hands inside their own protected interval: those of hands-on work, and those that a wedge, a prop and guards
/// put back take. From the words of docs/verdicts.md, "Protection".
/// </summary>
internal static class ProtectionRow
{
    public static Possible Judge(Story story)
    {
        if (story.Place == WorkPlace.OnBench && !story.Isolatable.Any())
        {
            return Possible.NotApplicable;
        }

        var walk = new Walk(story);
        var steps = HandSteps(story, walk)
            .Append(Amid(story))
            .Concat(TouchRows.OutsideWork(story, walk))
            .OfAll();
        var work = story.Spells.Select(spell => Work(story, walk, spell)).Append(Removals(story)).OfAll();
        if (story.StrayStops.Any())
        {
            work = work.And(story.IsOpen ? Possible.NeverMet : Possible.NotMet);
        }

        if (
            (story.HandsWentIn && story.MayHaveOtherWorkers)
            || story.Touches.Any(touch => !story.Workers.Contains(touch.By))
        )
        {
            // Whoever is said to have done the work started and ended it.
            work = work.And(story.IsOpen ? Possible.NeverNotMet | Possible.NotApplicable : Possible.NotMet);
        }

        if (!story.HandsWentIn)
        {
            // Nobody is shown at work yet, or at all.
            work |= story.IsOpen ? Possible.Any & ~Possible.NotMet : Possible.Any;
        }

        if (
            story.Claims(ExemptionKind.UndocumentedProcedure).Any()
            || ScopeRows.Exempt(story) != Possible.NotMet
        )
        {
            return Possible.Any;
        }

        var sum = work.And(steps);
        if (story.Steps.Any(s => s.IsAssumed) && sum.HasFlag(Possible.NotMet))
        {
            // A run of which only the end is told, with locks on: either may be what is wrong.
            sum |= Possible.Unproven;
        }

        return story.InForce is null || !story.KnowsSources || IsTangled(story)
            ? (sum & ~Possible.NotMet) | Possible.Judged
            : sum;
    }

    /// <summary>
    /// From the start of work, the start itself included, to its end. Of work that goes on with no end told, what was lost
    /// since its start may have been lost when hands were out.
    /// </summary>
    private static Possible Work(Story story, Walk walk, Spell spell)
    {
        var sum = Possible.Met;
        for (int at = spell.Start.Place; at < Math.Min(spell.End, story.Steps.Count); at++)
        {
            var now =
                walk.At(at).Runs
                || !walk.IsAllDead(at)
                || story.Steps[at].Kind == TimelineEventKind.HandedBack
                    ? Possible.NotMet
                    : walk.ControlsAll(at, spell.Person);
            sum = sum.And(
                now == Possible.NotMet && spell.Stop is null && at > spell.Start.Place
                    ? Possible.NeverMet
                    : now
            );
        }

        if (spell.Stop is null && !story.IsOpen)
        {
            sum = Possible.NotMet;
        }

        return
            SharesItsInstant(story, spell.Start) || (spell.Stop is { } stop && SharesItsInstant(story, stop))
            ? sum | Possible.Judged
            : sum;
    }

    /// <summary>Somebody's device taken off by another, and pressure that nobody watched, are told here as well.</summary>
    private static Possible Removals(Story story)
    {
        var off = OwnerRows.ByOwner(story);
        return (off == Possible.NotMet ? Possible.NotMet : Possible.NotApplicable).And(
            off.HasFlag(Possible.NotMet) || BuildUpRow.Judge(story).HasFlag(Possible.NotMet)
                ? Possible.Judged
                : Possible.NotApplicable
        );
    }

    /// <summary>What nobody does with hands in, as long as hands are in.</summary>
    private static Possible Amid(Story story) =>
        story.Steps.Any(s =>
            s.Event is { Kind: TimelineEventKind.IsolatorOperated, Position: IsolatorPosition.On }
            && story.Spells.Any(spell => spell.Covers(s.Place))
            && story.Sources.Any(source => source.Isolator is null && s.IsOf(source.Id.Text))
        )
            ? Possible.NotMet
        : story.Steps.Any(s =>
            s.Kind == TimelineEventKind.UnitSupported
            && story.Spells.Any(spell => spell.Person != s.By && spell.Covers(s.Place))
        )
            ? Possible.Unproven
        : story.Steps.Any(s =>
            story.Spells.Any(spell => spell.Covers(s.Place))
            && (
                s.Kind is TimelineEventKind.UnitsLowered or TimelineEventKind.CutOutsProved
                || (
                    s.Kind is TimelineEventKind.DriveDisengaged or TimelineEventKind.SeenAtRest
                    && story.Affected.Contains(s.By)
                )
            )
        )
            ? Possible.Unproven
        : Possible.NotApplicable;

    private static IEnumerable<Possible> HandSteps(Story story, Walk walk) =>
        story
            .Steps.Where(s =>
                IsByHand(story, s) && !story.Spells.Any(w => w.Person == s.By && w.Covers(s.Place))
            )
            .Select(s => HandStep(story, walk, s))
            .Concat(
                story.Steps.Where(s => s.Kind == TimelineEventKind.ReelWedged).Select(s => TooSoon(story, s))
            );

    /// <summary>Wedged before it is seen at rest.</summary>
    private static Possible TooSoon(Story story, Step wedge)
    {
        bool IsStop(Step s) => s.Kind is TimelineEventKind.MachineShutDown or TimelineEventKind.TestEnded;
        var start = story.Steps.LastOrDefault(s =>
            s.Kind is TimelineEventKind.MachineStarted or TimelineEventKind.TestEnergised && s.Before(wedge)
        );
        var stop = story.Steps.FirstOrDefault(s => IsStop(s) && s.Before(wedge) && start?.Before(s) != false);
        bool IsSeen(Step s) => s.Kind == TimelineEventKind.SeenAtRest;
        return story.Steps.Any(s =>
                IsSeen(s) && s.Before(wedge) && stop?.Before(s) != false && start?.Before(s) != false
            )
                ? Possible.NotApplicable
            : stop is not null && story.Steps.Any(s => IsSeen(s) && wedge.Before(s)) ? Possible.Unproven
            : Possible.Unproven | Possible.NotApplicable;
    }

    private static bool IsByHand(Story story, Step step) =>
        step.Kind
            is TimelineEventKind.ReelWedged
                or TimelineEventKind.UnitSupported
                or TimelineEventKind.GuardsRefitted
        || PutRight.IsByHand(story, step);

    /// <summary>What leads up to work asks less; whether it does where no work is shown after it, nothing says.</summary>
    private static Possible HandStep(Story story, Walk walk, Step step)
    {
        if (walk.At(step.Place).Runs)
        {
            // By the rule about hands while energised.
            return Possible.NotApplicable;
        }

        if (
            step.Kind is TimelineEventKind.GuardsRefitted or TimelineEventKind.SafetyDefectClosed
            || story.Spells.Any(w => w.Covers(step.Place))
        )
        {
            return AtAnyTime(walk, step);
        }

        bool IsRun(Step s) => s.Kind is TimelineEventKind.MachineStarted or TimelineEventKind.TestEnergised;
        var last = story.Spells.Select(w => w.Stop).Where(s => s?.Before(step) == true).MaxBy(s => s!.Place);
        bool startsAnew = last is null || story.Steps.Any(s => IsRun(s) && last.Before(s) && s.Before(step));
        bool workFollows = story.Spells.Any(w => step.Before(w.Start));
        var next = story.Steps.FirstOrDefault(s =>
            step.Before(s) && (IsRun(s) || s.Kind == TimelineEventKind.WorkStarted)
        );
        return !startsAnew || (!workFollows && story.HandsWentIn && !story.IsOpen) ? AtAnyTime(walk, step)
            : workFollows && !IsRun(next!) ? BeforeWork(walk, step)
            : BeforeWork(walk, step) | AtAnyTime(walk, step);
    }

    private static Possible BeforeWork(Walk walk, Step step)
    {
        int before = step.Place - 1;
        if (step.Kind == TimelineEventKind.UnitSupported)
        {
            return Possible.NotApplicable;
        }

        var (hung, all) = walk.Hung(before, step.By);
        return walk.IsAnyOn(before) ? Possible.NotMet
            : !walk.IsAllOff(before) ? Possible.NeverMet
            : hung == all ? Possible.Met
            : walk.LinesAt(before).Any(line => line is { Switched: true, Lockable: false }) ? Possible.Judged
            : hung == 0 ? Possible.NotMet
            : Possible.Unproven;
    }

    private static Possible AtAnyTime(Walk walk, Step step)
    {
        int before = step.Place - 1;
        var own = walk.ControlsAll(before, step.By);
        bool wedged = step.Kind == TimelineEventKind.ReelWedged;
        return walk.IsAnyOn(before) || (wedged && !walk.ControlsAny(before, step.By)) ? Possible.NotMet
            : own == Possible.Met && walk.IsAllDead(before) ? Possible.Met
            : wedged && own != Possible.Met ? Possible.NeverMet
            : Possible.Unproven;
    }

    /// <summary>Entries of one instant stand in the order in which they were typed, which proves little.</summary>
    private static bool SharesItsInstant(Story story, Step step) =>
        story.Steps.Any(s => s != step && s.At == step.At);

    /// <summary>
    /// One device on two isolators, hung by two people, coming off without having been on, or one thing plugged in twice:
    /// what then holds what, the meaning does not say.
    /// </summary>
    private static bool IsTangled(Story story) =>
        story.Steps.Any(s =>
            (s.IsDeviceOn && (story.WasHungByTwo(s) || s.Event.Source is SourceReference.All or null))
            || (s.IsDeviceOff && !story.WasOn(s))
        )
        || HangsOnTwo(story)
        || story.Additions.Skip(1).Any();

    /// <summary>One lock or tag put on more than one isolator.</summary>
    public static bool HangsOnTwo(Story story) =>
        story
            .Steps.Where(s => s.IsDeviceOn)
            .GroupBy(s => s.Device)
            .Any(device => device.Select(s => s.Event.Source).Distinct().Skip(1).Any());
}
