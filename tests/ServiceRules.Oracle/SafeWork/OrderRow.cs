using ServiceRules.Domain.Timeline;

namespace ServiceRules.Oracle.SafeWork;

/// <summary>
/// Opening words of paragraph (d): preparation, shutdown, isolation, device, release and verification in this order,
/// among the steps that are there before the first work.
/// </summary>
internal static class OrderRow
{
    public static Possible Judge(Story story)
    {
        var steps = story.BeforeWork;
        if (!steps.Any(IsStep))
        {
            return Possible.Any & ~Possible.NotMet;
        }

        if (IsInverted(story))
        {
            return SequenceRows.RanInBetween(story) ? Possible.Judged
                : story.HandsWentIn ? Possible.NotMet
                : Possible.NeverMet;
        }

        bool tied = steps
            .Where(IsStep)
            .GroupBy(s => s.At.ToString())
            .Any(g => g.Select(s => s.Kind).Distinct().Count() > 1);
        bool tooFew = steps.Where(IsStep).Select(Rank).Distinct().Count() < 2;
        return (
            story.Present
            | (story.HandsWentIn ? Possible.None : Possible.NotApplicable)
            | (
                tooFew || IsRedone(story) || IsDoneAgain(story)
                    ? Possible.Unproven | Possible.NotApplicable
                    : Possible.None
            )
        ).OrStricter(tied || IsInvertedAcrossAGap(story) || IsRedone(story) || IsDoneAgain(story));
    }

    /// <summary>A step of the sequence.</summary>
    public static bool IsStep(Step step) =>
        step.IsIsolation
        || (step.IsDeviceOn && !step.IsOnBox)
        || step.Kind
            is TimelineEventKind.EnergyReviewed
                or TimelineEventKind.MachineShutDown
                or TimelineEventKind.StoredEnergyReleased
                or TimelineEventKind.IsolationVerified;

    private static bool IsInverted(Story story)
    {
        var steps = story.BeforeWork;
        var review = First(steps, TimelineEventKind.EnergyReviewed);
        var down = First(steps, TimelineEventKind.MachineShutDown);
        var isolation = steps.FirstOrDefault(s => s.IsIsolation);
        if (After(review, down) || After(down, isolation))
        {
            return true;
        }

        List<Step> devices = [];
        foreach (var source in story.Isolatable)
        {
            string id = source.Id.Text;
            var device = steps.FirstOrDefault(s => s.IsDeviceOn && s.IsOf(id));
            if (device is null || !IsOnStill(story, id, device))
            {
                continue;
            }

            if (
                After(steps.FirstOrDefault(s => s.IsIsolation && s.IsOf(id)), device)
                || After(device, Relied(steps, id))
            )
            {
                return true;
            }

            devices.Add(device);
        }

        var released = steps.FirstOrDefault(s =>
            s.Kind == TimelineEventKind.StoredEnergyReleased && !IsReleasedAgain(story, s)
        );
        return devices.Any(d => After(d, released))
            || story.Stored.Any(s =>
                steps.Any(r =>
                    r.Kind == TimelineEventKind.StoredEnergyReleased
                    && r.IsOf(s.Id.Text)
                    && After(r, Relied(steps, s.Id.Text))
                )
            );
    }

    /// <summary>A device that came off again before the work is not the one that the work relied on.</summary>
    private static bool IsOnStill(Story story, string source, Step device) =>
        story.DevicesOn(source, story.FirstWork?.Place ?? int.MaxValue).Any(s => s.Device == device.Device);

    /// <summary>What was released again later is not what the work relied on.</summary>
    private static bool IsReleasedAgain(Story story, Step released) =>
        story.BeforeWork.Any(s =>
            s.Kind == TimelineEventKind.StoredEnergyReleased
            && Equals(s.Event.Source, released.Event.Source)
            && released.Before(s)
        );

    /// <summary>Out of order only across a step that is missing, which has a row of its own.</summary>
    private static bool IsInvertedAcrossAGap(Story story)
    {
        var steps = story.BeforeWork.Where(IsStep).ToList();
        return steps.Any(early =>
            steps.Any(late =>
                late.Before(early)
                && Rank(late) > Rank(early)
                && (
                    Rank(early) <= 1
                    || late.Kind == TimelineEventKind.StoredEnergyReleased
                    || SameSource(early, late)
                )
            )
        );
    }

    private static bool SameSource(Step a, Step b) =>
        a.Event.Source is SourceReference.All
        || b.Event.Source is SourceReference.All
        || a.Event.Source == b.Event.Source;

    private static int Rank(Step step) =>
        step.Kind switch
        {
            TimelineEventKind.EnergyReviewed => 0,
            TimelineEventKind.MachineShutDown => 1,
            TimelineEventKind.IsolatorOperated => 2,
            TimelineEventKind.StoredEnergyReleased => 4,
            TimelineEventKind.IsolationVerified => 5,
            _ => 3,
        };

    /// <summary>Something of the sequence came off or the machine ran before the first work.</summary>
    private static bool IsRedone(Story story) =>
        SequenceRows.RanInBetween(story)
        || story.BeforeWork.Any(s => s.IsDeviceOff || s.Event.Position == IsolatorPosition.On);

    /// <summary>The steps were gone through again after a test; their order then is more than the row asks.</summary>
    private static bool IsDoneAgain(Story story) =>
        story.Steps.Any(run => run.Kind == TimelineEventKind.TestEnergised);

    private static Step? First(IEnumerable<Step> steps, TimelineEventKind kind) =>
        steps.FirstOrDefault(s => s.Kind == kind);

    private static Step? Relied(IEnumerable<Step> steps, string source) =>
        steps.LastOrDefault(s => s.Kind == TimelineEventKind.IsolationVerified && s.IsOf(source));

    private static bool After(Step? early, Step? late) =>
        early is not null && late is not null && late.At < early.At;
}
