using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Oracle.SafeWork;

/// <summary>Locks and tags against their register, and who may hang them: (c)(2), (c)(5), (c)(7)(ii), (c)(8), (d)(4)(iii).</summary>
internal static class DeviceRows
{
    public static Possible LockedWhereItFits(Story story) =>
        Tags(story)
            .Select(tag =>
            {
                var source = story.Sources.FirstOrDefault(s => tag.IsOf(s.Id.Text));
                if (source is null)
                {
                    return Possible.Any;
                }

                if (!source.Lockable)
                {
                    return tag.Event.ExtraMeasure is null
                        ? Possible.NeverNotMet | Possible.NotApplicable
                        : Possible.Met;
                }

                var locks = story
                    .Steps.Where(s => s.Kind == TimelineEventKind.LockApplied && s.IsOf(source.Id.Text))
                    .ToList();
                // "Shall utilize lockout": a lock that was off before the tag hung, or came after it, leaves the tag alone.
                bool elsewhere = locks.Append(tag).Any(on => HangsElsewhere(story, on));
                bool beside = locks.Any(l =>
                    (Off(story, l) is not { } off || tag.Before(off))
                    && (Off(story, tag) is not { } gone || l.Before(gone))
                );
                return beside ? Possible.Met.OrStricter(locks.All(l => story.FirstWork?.Before(l) == true))
                    : locks.Count > 0 && tag.Event.ExtraMeasure is null
                        ? elsewhere ? Possible.Judged
                            : story.HandsWentIn ? Possible.NotMet
                            : Possible.NeverMet
                    : tag.Event.ExtraMeasure is not null ? Possible.Judged
                    : story.HandsWentIn ? Possible.NotMet
                    : Possible.NeverMet;
            })
            .OfAllOrNone();

    private static bool HangsElsewhere(Story story, Step on) =>
        story.Steps.Any(s =>
            (s.IsDeviceOn || s.IsDeviceOff) && s.Device == on.Device && s.Event.Source != on.Event.Source
        );

    private static Step? Off(Story story, Step on) =>
        story.Steps.FirstOrDefault(s => s.IsDeviceOff && s.Device == on.Device && on.Before(s));

    public static Possible AtLockPoint(Story story) =>
        Tags(story)
            .Select(tag =>
                tag.Event.AtLockPoint ? Possible.Met
                : story.Sources.FirstOrDefault(s => tag.IsOf(s.Id.Text)) is { Lockable: true }
                    ? Possible.NotMet
                : Possible.Any & ~Possible.NotMet
            )
            .OfAllOrNone();

    public static Possible OnlyForLockout(Story story) =>
        Applied(story)
            .Select(s =>
                story.Lock(s.Device) is not { } known
                    ? story.Context.Locks.IsEmpty
                        ? Possible.NeverMet
                        : Possible.NotMet
                    : known.Use == RegisteredLock.Lockout
                        ? Possible.Met
                        : Possible.NotMet
            )
            .OfAllOrNone();

    public static Possible OfSiteStyle(Story story) =>
        Applied(story)
            .Select(s =>
                story.Context.LockStyle is not { } standard ? Possible.Any & ~Possible.NotMet
                : story.Lock(s.Device) is not { } known ? Possible.Any & ~Possible.Met
                : known.Style is not { } style ? Possible.Any & ~Possible.NotMet
                : style == standard ? Possible.Met
                : Possible.NotMet
            )
            .OfAllOrNone();

    public static Possible ShowsOwner(Story story) =>
        Applied(story)
            .Where(s => s.Kind == TimelineEventKind.LockApplied)
            .Select(s =>
                story.Lock(s.Device) is not { } known ? Possible.NeverMet
                : known.Owner is { } owner
                    ? owner.Text == s.By ? Possible.Met
                        : Possible.NotMet
                : IsInCharge(story, s.By) ? Possible.Met
                : Possible.NotMet
            )
            .OfAllOrNone();

    public static Possible TagWarns(Story story) =>
        Tags(story)
            .Select(tag =>
                story.Lock(tag.Device) is not { } known ? Possible.NeverMet
                : known.Legend is null ? Possible.NotMet
                : Possible.Met
            )
            .OfAllOrNone();

    public static Possible TaggersTrained(Story story) =>
        Tags(story)
            .Select(tag =>
                story.Person(tag.By) is not { } person ? Possible.NeverMet
                : person.TagLimitsOn is { } on && on <= story.Day ? Possible.Met
                : Possible.NotMet
            )
            .OfAllOrNone();

    public static Possible OnlyAuthorised(Story story) =>
        Applied(story)
            .Select(s =>
                story
                    .Authority(s.By)
                    .And(
                        story.Workers.Contains(s.By)
                        || story.InCharge(TimelineEventKind.PrimaryAssigned).Contains(s.By)
                            ? Possible.Met
                        : story.IsOpen || !story.HandsWentIn || Performs(story, s.By) ? Possible.Judged
                        : Possible.NotMet
                    )
            )
            .OfAllOrNone();

    private static IEnumerable<Step> Applied(Story story) => story.Steps.Where(s => s.IsDeviceOn);

    private static IEnumerable<Step> Tags(Story story) =>
        story.Steps.Where(s => s.Kind == TimelineEventKind.TagApplied);

    private static bool IsInCharge(Story story, string person) =>
        story
            .InCharge(TimelineEventKind.PrimaryAssigned)
            .Concat(story.InCharge(TimelineEventKind.CoordinatorAssigned))
            .Contains(person);

    private static bool Performs(Story story, string person) =>
        story.SaidToWork.Contains(person) || story.AtTheStop.Contains(person);
}
