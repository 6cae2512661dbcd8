using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>
/// How the entries of one record are told: times as recorded, to the minute where seconds are nought, with the day only
/// where it is not the day of the job, with the offset only where the record mixes offsets or the time has another than it.
/// </summary>
internal sealed class TimelineWords
{
    private const int DateLength = 10;
    private const int MinuteEnd = 16;
    private const int SecondEnd = 19;

    private readonly string day;
    private readonly ImmutableHashSet<string> offsets;

    private TimelineWords(string day, ImmutableHashSet<string> offsets)
    {
        this.day = day;
        this.offsets = offsets;
    }

    public static TimelineWords Of(TimelineReading reading) => Of(reading, []);

    /// <summary>The same where entries of another record are told beside its own.</summary>
    public static TimelineWords OfBoth(TimelineReading reading, TimelineReading other) =>
        Of(reading, other.Events);

    private static TimelineWords Of(TimelineReading reading, ImmutableArray<OrderedEvent> beside) =>
        new(
            reading.Frame.Record.Date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
            [.. reading.Events.Concat(beside).Select(entry => OffsetOf(entry.Event.At))]
        );

    /// <summary>The time of an entry.</summary>
    public string Time(OrderedEvent entry) => Time(entry.Event.At);

    /// <summary>A recorded time.</summary>
    public string Time(RecordedTime time)
    {
        var text = time.Text;
        var date = text[..DateLength];
        var clock = text[MinuteEnd..].StartsWith(":00", StringComparison.Ordinal)
            ? text[(DateLength + 1)..MinuteEnd]
            : text[(DateLength + 1)..SecondEnd];
        return (string.Equals(date, day, StringComparison.Ordinal) ? string.Empty : date + " ")
            + clock
            + (MixesOffsets(OffsetOf(time)) ? OffsetOf(time) : string.Empty);
    }

    private bool MixesOffsets(string offset) =>
        offsets.Count > 1 || (offsets.Count == 1 && !offsets.Contains(offset));

    /// <summary>Who and when, for example <c>at 08:20 by tech-01</c>.</summary>
    public string AtBy(OrderedEvent entry) => $"at {Time(entry)} by {entry.Event.Actor}";

    /// <summary>
    /// When something was done too late, up to the word <c>after</c>: with one printed time for both, that it was entered later.
    /// </summary>
    public string OnlyAt(OrderedEvent late, OrderedEvent limit) =>
        string.Equals(Time(late), Time(limit), StringComparison.Ordinal)
            ? $"at {Time(late)}, entered only after"
            : $"only at {Time(late)}, after";

    /// <summary>Sources by their plain names.</summary>
    public static string Named(IEnumerable<EnergySource> sources) =>
        List(sources.Select(source => Named(source)));

    /// <summary>A source inside a sentence: its title without the capital that begins it, unless it is an abbreviation.</summary>
    public static string Named(EnergySource source) =>
        source.Title is [var first, var next, ..] && char.IsUpper(first) && char.IsLower(next)
            ? char.ToLowerInvariant(first) + source.Title[1..]
            : source.Title;

    /// <summary>Several things as people list them: <c>a, b and c</c>.</summary>
    public static string List(IEnumerable<string> things)
    {
        var all = things.ToList();
        return all.Count < 2 ? string.Concat(all) : $"{string.Join(", ", all[..^1])} and {all[^1]}";
    }

    /// <summary>The first and last of some times.</summary>
    public static string Span(IEnumerable<string> times)
    {
        var all = times.Distinct(StringComparer.Ordinal).ToList();
        return all.Count == 1 ? all[0] : $"{all[0]} to {all[^1]}";
    }

    private static string OffsetOf(RecordedTime time) =>
        time.Text[SecondEnd..].TrimStart('.', '0', '1', '2', '3', '4', '5', '6', '7', '8', '9');
}
