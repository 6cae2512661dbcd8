using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Engine.Tests.SafeWork;

/// <summary>Writes events one after the other, a few minutes apart, in the offsets of several clocks.</summary>
internal sealed class TimelinePen(Random random, DateTimeOffset start)
{
    private static readonly int[] Offsets = [-240, -240, -240, -240, 0, 60, -180];

    private readonly ImmutableArray<TimelineEvent>.Builder events =
        ImmutableArray.CreateBuilder<TimelineEvent>();
    private DateTimeOffset now = start;

    public ImmutableArray<TimelineEvent> Written => events.ToImmutable();

    public void Wait(int minutes) => now = now.AddMinutes(minutes);

    public void Write(
        TimelineEventKind kind,
        string by,
        string? source = null,
        string? device = null,
        Func<TimelineEvent, TimelineEvent>? more = null
    )
    {
        now = now.AddSeconds(random.Next(60, 241));
        TimelineEvent written = new()
        {
            Kind = kind,
            At = Time(now, Offsets[random.Next(Offsets.Length)]),
            Actor = new(by),
            Source = SourceOf(source),
            Lock = device is null ? null : new Id<LockDevice>(device),
        };
        events.Add(more is null ? written : more(written));
    }

    /// <summary>What puts on the locks and tags that are on.</summary>
    public IReadOnlyCollection<TimelineEvent> On()
    {
        Dictionary<string, TimelineEvent> on = new(StringComparer.Ordinal);
        foreach (var e in events.Where(e => e.Lock is not null))
        {
            if (e.Kind is TimelineEventKind.LockApplied or TimelineEventKind.TagApplied)
            {
                on[e.Lock!.Value.Text] = e;
            }
            else
            {
                on.Remove(e.Lock!.Value.Text);
            }
        }

        return on.Values;
    }

    public static SourceReference? SourceOf(string? source) =>
        source switch
        {
            null => null,
            "all" => new SourceReference.All(),
            "group_box" => new SourceReference.GroupBox(),
            _ => new SourceReference.One(new(source)),
        };

    public static RecordedTime Time(DateTimeOffset at, int offsetMinutes)
    {
        var there = at.ToOffset(TimeSpan.FromMinutes(offsetMinutes));
        string text =
            offsetMinutes == 0
                ? there.ToString("yyyy-MM-ddTHH:mm:ss'Z'", CultureInfo.InvariantCulture)
                : there.ToString("yyyy-MM-ddTHH:mm:sszzz", CultureInfo.InvariantCulture);
        return Parse(text);
    }

    public static RecordedTime Parse(string text) =>
        RecordedTime.Parse(text).TryGet(out var time, out _) ? time : throw new ArgumentException(text);

    public static ImmutableArray<Id<Participant>> People(params IEnumerable<string> people) =>
        [.. people.Select(person => new Id<Participant>(person))];
}
