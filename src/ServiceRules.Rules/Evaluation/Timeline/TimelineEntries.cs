using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Domain;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>What single entries say by themselves.</summary>
internal static class TimelineEntries
{
    /// <summary>Its place in the judged order.</summary>
    public static TimelinePlace Place(this OrderedEvent entry) => new(entry.Moment, entry.Index);

    /// <summary>
    /// Whether two places stand in one printed minute, seconds not noted: which of the two came first the record cannot
    /// tell.
    /// </summary>
    public static bool IsInTheMinuteOf(this TimelinePlace place, TimelinePlace? other) =>
        place.Moment == other?.Moment && place.Moment.Utc.Ticks % TimeSpan.TicksPerMinute == 0;

    /// <summary>Whether a stretch begins and ends in one printed minute.</summary>
    public static bool IsWithinAMinute(this TimelineInterval stretch) =>
        stretch.From.IsInTheMinuteOf(stretch.Until);

    /// <summary>Its evidence pointer.</summary>
    public static string Pointer(this OrderedEvent entry) =>
        string.Create(CultureInfo.InvariantCulture, $"/timeline/{entry.Index}");

    /// <summary>Said to be entered later or copied from paper.</summary>
    public static bool IsLabelledLate(this OrderedEvent entry) =>
        entry.Event.Mark is EntryMark.LateEntry or EntryMark.Transcription;

    /// <summary>To the whole minute: seconds may not have been noted.</summary>
    public static bool IsToTheMinute(this OrderedEvent entry) =>
        entry.Moment.Utc.Ticks % TimeSpan.TicksPerMinute == 0;

    /// <summary>Whether it begins a run for a test, or is all that is entered of one.</summary>
    public static bool IsTestRun(this OrderedEvent entry) =>
        entry.Event.Kind is TimelineEventKind.TestEnergised or TimelineEventKind.TestEnded;

    /// <summary>Whether it names a source, or all of them.</summary>
    public static bool SpeaksOf(this TimelineEvent entry, Id<EnergySource> source) =>
        entry.Source switch
        {
            SourceReference.All => true,
            SourceReference.One one => one.Source == source,
            _ => false,
        };

    /// <summary>Places of entries.</summary>
    public static IEnumerable<TimelinePlace> Places(this IEnumerable<OrderedEvent> entries) =>
        entries.Select(entry => entry.Place());

    /// <summary>Evidence pointers of entries, each once, in ordinal order.</summary>
    public static ImmutableArray<string> Evidence(this IEnumerable<OrderedEvent> entries) =>
        [.. entries.Select(entry => entry.Pointer()).Distinct().Order(StringComparer.Ordinal)];
}
