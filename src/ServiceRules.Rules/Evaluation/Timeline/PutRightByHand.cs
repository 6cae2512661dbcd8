using System.Collections.Frozen;
using System.Runtime.CompilerServices;
using System.Text.RegularExpressions;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>
/// A safety defect entered as put right where the record shows nothing that put it right: then the entry itself is what
/// was done, with the hands of whoever made it, at its time. What was done by then is hands-on work with the machine
/// stopped, of whoever entered it or of others who had ended it; guards refitted; or an adjuster turned or a part fitted by a
/// timed entry of the bench log. Each of these is judged by itself. An entry whose words say that no hands
/// were needed is believed.
/// </summary>
internal static partial class PutRightByHand
{
    // Asked by several checks: read once for a timeline. Each with when what it puts right was found, or null.
    private static readonly ConditionalWeakTable<
        TimelineReading,
        FrozenDictionary<int, OrderedEvent?>
    > Read = [];

    /// <summary>Whether an entry is one, so that it takes hands.</summary>
    public static bool Is(TimelineReading reading, OrderedEvent entry) =>
        entry.Event.Kind == TimelineEventKind.SafetyDefectClosed
        && Read.GetValue(reading, Of).ContainsKey(entry.Index);

    /// <summary>Whether the machine ran all the time from when the defect was found.</summary>
    public static bool IsWithinOneRun(TimelineReading reading, OrderedEvent closed) =>
        Read.GetValue(reading, Of).GetValueOrDefault(closed.Index) is { } found
        && reading.Running.StretchAt(closed.Place()) is { } stretch
        && stretch.Contains(found.Place());

    /// <summary>Why a step is one of hands, after what it is.</summary>
    public static string TakesHands(TimelineEvent entry) =>
        entry.Kind == TimelineEventKind.SafetyDefectClosed
            ? ", with nothing entered that did it, so by hands at the unit"
            : ", which takes hands at the unit";

    // Defects are put right in the order in which they were found.
    private static FrozenDictionary<int, OrderedEvent?> Of(TimelineReading reading)
    {
        var open = new Queue<OrderedEvent>();
        var byHand = new Dictionary<int, OrderedEvent?>();
        var worked = reading
            .Works.SelectMany(work =>
                IntervalSet
                    .Of([work.Interval])
                    .Without(reading.Running)
                    .Intervals.Select(stretch => (Work: work, Stretch: stretch))
            )
            .ToList();
        foreach (
            var entry in reading.Of(TimelineEventKind.SafetyDefectFound, TimelineEventKind.SafetyDefectClosed)
        )
        {
            if (entry.Event.Kind == TimelineEventKind.SafetyDefectFound)
            {
                open.Enqueue(entry);
                continue;
            }

            _ = open.TryDequeue(out var found);
            var from = found?.Place() ?? TimelinePlace.Beginning;
            if (
                !NeedsNone(entry.Event)
                && !worked.Exists(one =>
                    (one.Work.Person == entry.Event.Actor || one.Work.Stop?.Moment <= entry.Moment)
                    && one.Stretch.From < entry.Place()
                    && (one.Stretch.Until is not { } until || until > from)
                )
                && !IsDoneBeside(reading, from, entry)
            )
            {
                byHand[entry.Index] = found;
            }
        }

        return byHand.ToFrozenDictionary();
    }

    private static bool IsDoneBeside(TimelineReading reading, TimelinePlace found, OrderedEvent closed)
    {
        var between = IntervalSet.Of([new TimelineInterval(found, closed.Place())]).Without(reading.Running);
        return reading
                .Of(TimelineEventKind.GuardsRefitted)
                .Any(entry => between.Contains(entry.Place()) || IsIn(between, entry.Moment))
            || reading.HandsByTheLog.Any(hands => !hands.IsReading && IsIn(between, hands.Moment));
    }

    // Times are often noted to the minute: before or after every entry of it.
    private static bool IsIn(IntervalSet between, Moment moment) =>
        between.Contains(new(moment, int.MinValue)) || between.Contains(new(moment, int.MaxValue));

    private static bool NeedsNone(TimelineEvent entry) =>
        (entry.Method is { } method && NoHands().IsMatch(method))
        || (entry.Reason is { } reason && NoHands().IsMatch(reason));

    [GeneratedRegex(
        @"\b(?:no|without)\W+(?:any\W+)?hands?\b(?!\W+(?:tools?|brakes?)\b)|\bhands\W+(?:kept\W+|well\W+)?(?:out|clear|away)\b|\bfrom\W+(?:the\W+)?(?:seat|outside|cab|controls?)\b|\b(?:off|away\W+from)\W+the\W+(?:machine|unit|reel)\b|\bon\W+the\W+bench\b|\bfalse\W+alarm\b|\bno\W+(?:safety\W+)?(?:defect|fault)\b",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant
    )]
    private static partial Regex NoHands();
}
