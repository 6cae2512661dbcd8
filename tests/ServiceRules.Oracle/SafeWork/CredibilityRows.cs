using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Oracle.SafeWork;

/// <summary>
/// The rows about credibility: whether each flags, and what it flags. A flag is unproven, never a breach. Thresholds are
/// the table's suggestions; between the product's stricter figure and the suggestion there is no opinion.
/// </summary>
internal static class CredibilityRows
{
    private static readonly TimelineEventKind[] AtTheMachine =
    [
        TimelineEventKind.IsolatorOperated,
        TimelineEventKind.LockApplied,
        TimelineEventKind.TagApplied,
        TimelineEventKind.StoredEnergyReleased,
        TimelineEventKind.IsolationVerified,
        TimelineEventKind.LockRemoved,
        TimelineEventKind.TagRemoved,
    ];

    private static readonly TimelineEventKind[] Physical =
    [
        TimelineEventKind.MachineShutDown,
        TimelineEventKind.IsolatorOperated,
        TimelineEventKind.LockApplied,
        TimelineEventKind.TagApplied,
        TimelineEventKind.StoredEnergyReleased,
        TimelineEventKind.IsolationVerified,
        TimelineEventKind.LockRemoved,
        TimelineEventKind.TagRemoved,
    ];

    /// <summary>
    /// Sure is: five seconds a step with hands at the machine, after the first of three or more, where seconds were noted. How
    /// long looking round or proving takes, and what only minutes leave open, is left to the product.
    /// </summary>
    public static Possible Burst(Story story)
    {
        bool surely = story.Entered.Any(first =>
            story.Entered.Any(last =>
                last.By == first.By && !IsLate(first) && !IsLate(last) && IsTooMuch(story, first, last)
            )
        );
        return Flag(surely, Bursts(story, TimeSpan.FromSeconds(60), 3, any: true).Any());
    }

    /// <summary>Entries that no hand can have made at these times, and what was entered in the same breath.</summary>
    public static IReadOnlyList<TimelineEvent> BurstEntries(Story story) =>
        [
            .. Bursts(story, TimeSpan.FromSeconds(1), 6)
                .Where(burst => !burst.Exists(IsLate) && !burst.TrueForAll(IsWholeMinute))
                .SelectMany(burst =>
                    story.Entered.Where(s =>
                        s.By == burst[0].By
                        && !IsLate(s)
                        && s.At - burst[0].At <= TimeSpan.FromSeconds(1)
                        && burst[0].At - s.At <= TimeSpan.FromSeconds(0.5)
                    )
                )
                .Select(s => s.Event)
                .Distinct<TimelineEvent>(ReferenceEqualityComparer.Instance),
        ];

    public static Possible BackFilled(Story story) =>
        Flag(BackFilledEntries(story).Count > 0, Late(story, first: true).Any());

    public static IReadOnlyList<TimelineEvent> BackFilledEntries(Story story) =>
        story.LastStop is null ? [] : [.. Late(story, first: false).Select(s => s.Event)];

    public static Possible ClockBackward(Story story) =>
        Flag(SetBackEntries(story).Count > 0, SetBack(story, consecutive: false).Any());

    public static IReadOnlyList<TimelineEvent> SetBackEntries(Story story) =>
        [.. SetBack(story, consecutive: true).Select(s => s.Event)];

    public static Possible FutureStamp(Story story) =>
        Flag(
            story.Entered.Any(s =>
                s.Event.ReceivedAt is { } received
                && Story.MomentOf(received, story.Context) is { } got
                && s.At - got > TimeSpan.FromMinutes(5)
            ),
            false
        );

    public static Possible ConflictingDuplicate(Story story)
    {
        bool surely = false;
        bool perhaps = false;
        foreach (var (one, other) in Pairs(story.Entered))
        {
            if (one.Kind != other.Kind || one.By == other.By || one.Event.Source != other.Event.Source)
            {
                continue;
            }

            bool oneOff = (one.IsIsolation && other.IsIsolation) || one.Kind == TimelineEventKind.PlugRemoved;
            bool like =
                one.Kind
                    is TimelineEventKind.MachineShutDown
                        or TimelineEventKind.StoredEnergyReleased
                        or TimelineEventKind.KeyRemoved
                || (one.IsDeviceOn && one.Device == other.Device);
            bool reversed = story.Entered.Any(s => one.Before(s) && s.Before(other) && MayReverse(s));
            bool otherIsolator = one.Event.Isolator != other.Event.Isolator;
            surely |= oneOff && !reversed && !otherIsolator;
            perhaps |= oneOff || like;
        }

        // One identity of two entries that say different things.
        surely |= story
            .Entered.Where(s => s.Event.EventId is not null)
            .GroupBy(s => s.Event.EventId)
            .Any(same => same.Count() > 1);

        return Flag(surely, perhaps);
    }

    public static Possible LockTwoPlaces(Story story)
    {
        bool surely = false;
        bool perhaps = false;
        foreach (var away in story.Context.Elsewhere.OfType<LockElsewhere>())
        {
            if (away.Machine == story.Record.Machine.Id)
            {
                continue;
            }

            var (from, until) = Span(away, story);
            foreach (var on in story.Entered.Where(s => s.IsDeviceOn && s.Device == away.Lock.Text))
            {
                var off = story.Entered.FirstOrDefault(s =>
                    s.IsDeviceOff && s.Device == on.Device && on.Before(s)
                );
                bool within = (until is null || on.At < until) && (off is null || from < off.At);
                surely |= within && off is not null;
                perhaps |= within || from == off?.At || until == on.At;
            }
        }

        surely |= HangsOnTwo(story);
        return Flag(surely, perhaps);
    }

    /// <summary>One lock on two isolators of the machine, never taken off between: as impossible as on two machines.</summary>
    private static bool HangsOnTwo(Story story) =>
        Pairs(story.Entered)
            .Any(pair =>
                pair.Item1.IsDeviceOn
                && pair.Item2.IsDeviceOn
                && pair.Item1.Device == pair.Item2.Device
                && IsolatorOf(story, pair.Item1) is { } one
                && IsolatorOf(story, pair.Item2) is { } other
                && one != other
                && !story.Entered.Any(off =>
                    off.IsDeviceOff
                    && off.Device == pair.Item1.Device
                    && pair.Item1.Before(off)
                    && off.Before(pair.Item2)
                )
            )
        || story.Entered.Any(s =>
            s.IsDeviceOn
            && s.Event.Source is SourceReference.All
            && story
                .Isolatable.Select(source => source.Isolator)
                .Distinct(StringComparer.Ordinal)
                .Skip(1)
                .Any()
        );

    private static string? IsolatorOf(Story story, Step on) =>
        on.Event.Source is SourceReference.One { Source: var id }
            ? story.Isolatable.FirstOrDefault(source => source.Id == id)?.Isolator
            : null;

    public static Possible ActorElsewhere(Story story)
    {
        bool surely = story.Entered.Any(s =>
            story.Context.Attendance.Where(a => a.Person.Text == s.By).ToList() is { Count: > 0 } there
            && !there.Any(a =>
                Story.MomentOf(a.From, story.Context) <= s.At
                && s.At <= Story.MomentOf(a.Until, story.Context)
            )
        );
        bool perhaps = false;
        foreach (var away in story.Context.Elsewhere.OfType<PersonElsewhere>())
        {
            var (from, until) = Span(away, story);
            foreach (var spell in story.Spells.Where(s => s.Person == away.Person.Text))
            {
                bool overlaps =
                    (until is null || spell.Start.At < until) && (spell.Stop is null || from < spell.Stop.At);
                surely |= overlaps && spell.Stop is not null && until is not null;
                perhaps |= overlaps;
            }

            perhaps |= story.Entered.Any(s =>
                s.By == away.Person.Text && from <= s.At && (until is null || s.At <= until)
            );
        }

        return Flag(surely, perhaps);
    }

    public static Possible NoOffset(Story story) =>
        Flag(story.Record.Timeline.Any(e => e.At is RecordedTime.LocalTime), false);

    /// <summary>A doubt that is there, may be there, or is not.</summary>
    public static Possible Flag(bool surely, bool perhaps) =>
        surely ? Possible.Unproven
        : perhaps ? Possible.Any & ~Possible.NotMet
        : Possible.Met | Possible.NotApplicable;

    private static IEnumerable<List<Step>> Bursts(
        Story story,
        TimeSpan window,
        int count,
        bool any = false
    ) =>
        story
            .Entered.Select(first =>
                story
                    .Steps.Where(s =>
                        s.By == first.By
                        && (any || Physical.Contains(s.Kind))
                        && first.At <= s.At
                        && s.At - first.At <= window
                    )
                    .ToList()
            )
            .Where(near =>
                any ? near.Count >= count : near.DistinctBy(s => (s.Kind, s.Event.Source)).Count() >= count
            );

    private static bool IsTooMuch(Story story, Step first, Step last)
    {
        var between = story
            .Entered.Where(s =>
                s.By == first.By && !IsLate(s) && first.Place <= s.Place && s.Place <= last.Place
            )
            .ToList();
        int steps = between
            .Where(s => AtTheMachine.Contains(s.Kind))
            .DistinctBy(s => (s.Kind, s.Event.Source))
            .Count();
        return steps >= 3
            && !between.TrueForAll(IsWholeMinute)
            && AtTheMachine.Contains(first.Kind)
            && TimeSpan.FromSeconds(5 * (steps - 1)) > last.At - first.At;
    }

    private static bool IsLate(Step step) =>
        step.Event.Mark is EntryMark.LateEntry or EntryMark.Transcription;

    private static bool IsWholeMinute(Step step) =>
        step.At.Utc is { Second: 0, Millisecond: 0, Microsecond: 0 };

    private static IEnumerable<Step> Late(Story story, bool first)
    {
        var stops = story.Entered.Where(s => s.Kind == TimelineEventKind.WorkStopped).ToList();
        var stop = first ? stops.FirstOrDefault() : stops.LastOrDefault();
        return story.Entered.Where(s =>
            s.Event.Mark == EntryMark.AtTheTime
            && s.Event.ReceivedAt is { } received
            && Story.MomentOf(received, story.Context) is { } got
            && got - s.At > TimeSpan.FromMinutes(30)
            && (stop is not null ? got > stop.At : first)
        );
    }

    private static IEnumerable<Step> SetBack(Story story, bool consecutive)
    {
        foreach (
            var device in story.Entered.Where(s => s.Event.Device is not null).GroupBy(s => s.Event.Device)
        )
        {
            var counted = device
                .Where(s =>
                    s.Event.Sequence is not null
                    && s.Event.Mark is not (EntryMark.LateEntry or EntryMark.Transcription)
                )
                .OrderBy(s => s.Event.Sequence)
                .ToList();
            for (int later = 1; later < counted.Count; later++)
            {
                int from = consecutive ? later - 1 : 0;
                if (
                    counted
                        .Skip(from)
                        .Take(later - from)
                        .Any(s =>
                            (
                                consecutive
                                    ? s.Event.Sequence < counted[later].Event.Sequence
                                    : s != counted[later]
                            )
                            && (
                                s.At - counted[later].At > TimeSpan.FromSeconds(2)
                                || (!consecutive && s.Event.Sequence == counted[later].Event.Sequence)
                            )
                        )
                )
                {
                    yield return counted[later];
                }
            }
        }
    }

    private static bool MayReverse(Step step) =>
        step.IsDeviceOff
        || step.Event.Position == IsolatorPosition.On
        || step.Kind
            is TimelineEventKind.TestEnergised
                or TimelineEventKind.TestEnded
                or TimelineEventKind.MachineStarted;

    private static IEnumerable<(Step One, Step Other)> Pairs(IReadOnlyList<Step> steps) =>
        steps.SelectMany((one, at) => steps.Skip(at + 1).Select(other => (one, other)));

    private static (Moment From, Moment? Until) Span(Elsewhere away, Story story) =>
        (
            Story.MomentOf(away.From, story.Context) ?? Moment.From(DateTimeOffset.MinValue),
            away.Until is { } until ? Story.MomentOf(until, story.Context) : null
        );
}
