using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>Tags: only where no lock fits, or with a measure that makes up for it; and where the lock would hang.</summary>
internal static class TagDuties
{
    private static readonly CheckOutcome NoTag = TimelineOutcome.NotApplicable(
        "The record shows no tag put on."
    );

    /// <summary>A tag alone hangs on an isolator that takes a lock only with a recorded extra measure.</summary>
    public static CheckOutcome LockWhereItFits(DutyFrame duty) =>
        Judge(
            duty,
            (tag, source) =>
                source.Source.Lockable
                && tag.Event.ExtraMeasure is null
                && !HasLockBeside(duty, tag, source.Source.Id),
            "takes a lock, and does not show a lock on it or an extra measure",
            "Hang a lock where one fits; a tag alone does not hold.",
            "The record shows tags only where no lock fits, or beside a lock or an extra measure."
        );

    /// <summary>A tag on an isolator with a place for a lock hangs at that place.</summary>
    public static CheckOutcome TagAtLockPoint(DutyFrame duty) =>
        Judge(
            duty,
            (tag, source) => source.Source.Lockable && !tag.Event.AtLockPoint,
            "has a place for a lock, and does not show the tag hung there",
            "Hang the tag where the lock would go.",
            "The record shows every tag where a lock would hang, or on an isolator that takes none."
        );

    // A lock that was off again before the tag, or came on after it, leaves the tag alone.
    private static bool HasLockBeside(DutyFrame duty, OrderedEvent tag, Id<EnergySource> source)
    {
        var on =
            duty.Reading.Devices.FirstOrDefault(device =>
                device.Device == tag.Event.Lock
                && device.Applied.Event.Source == tag.Event.Source
                && device.Interval.Contains(tag.Place())
            )?.Interval
            ?? new TimelineInterval(tag.Place(), null);
        return duty.Reading.Devices.Any(device =>
            !device.IsTag && device.IsOn(source) && !device.Interval.Overlap(on).IsEmpty
        );
    }

    private static CheckOutcome Judge(
        DutyFrame duty,
        Func<OrderedEvent, EffectiveSource, bool> isAtFault,
        string fault,
        string act,
        string met
    )
    {
        var tags = duty.Reading.Of(TimelineEventKind.TagApplied);
        if (tags.IsEmpty)
        {
            return NoTag;
        }

        if (SourcesKnown.Lacking(duty) is { } lacking)
        {
            return lacking;
        }

        var faults =
            from tag in tags
            from source in duty.Sources
            where source.HasIsolator && tag.Event.SpeaksOf(source.Source.Id) && isAtFault(tag, source)
            select new TimelineFault(
                Verdict.NotMet,
                FindingReason.ProcedureNotFollowed,
                $"The record shows tag {tag.Event.Lock} put on {TimelineWords.Named(source.Source)} {duty.Words.AtBy(tag)}, whose isolator {fault}.",
                [tag],
                act
            );
        var found = faults.ToImmutableArray();
        return found.IsEmpty ? TimelineOutcome.Met(duty.Reading, met, tags) : TimelineOutcome.OfFaults(found);
    }
}
