using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Domain;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Rules.Tests.Evaluation.Timeline;

/// <summary>One entry of a timeline as tests write it.</summary>
internal static class TimelineLine
{
    public static TimelineEvent Read(string line, DateOnly day)
    {
        var words = line.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        var members = words
            .Skip(3)
            .Select(word => word.Split('=', 2))
            .ToDictionary(pair => pair[0], pair => pair[1]);
        return new()
        {
            At = Time(words[0], day),
            Kind = Kind(words[1]),
            Actor = new(words[2]),
            Source = members.TryGetValue("source", out var source) ? Reference(source) : null,
            Lock = members.TryGetValue("lock", out var device) ? new Id<LockDevice>(device) : null,
            Position = members.TryGetValue("position", out var position)
                ? Enum.Parse<IsolatorPosition>(position, ignoreCase: true)
                : null,
            Mark = members.TryGetValue("mark", out var mark)
                ? Enum.Parse<EntryMark>(mark.Replace("-", "", StringComparison.Ordinal), ignoreCase: true)
                : EntryMark.AtTheTime,
            Others = members.TryGetValue("others", out var others)
                ? [.. others.Split(',').Select(id => new Id<Participant>(id))]
                : [],
            AtLockPoint = members.ContainsKey("at-lock-point"),
            Exception = members.GetValueOrDefault("exception"),
            Isolator = members.GetValueOrDefault("isolator"),
            Task = members.TryGetValue("task", out var task)
                ? Enum.Parse<ServiceTask>(task, ignoreCase: true)
                : null,
            Reason = members.GetValueOrDefault("reason")?.Replace('_', ' '),
            Method = members.GetValueOrDefault("method")?.Replace('_', ' '),
            ExtraMeasure = members.GetValueOrDefault("extra"),
            Pressure = members.TryGetValue("pressure", out var pressure)
                ? Pressure.Parse(pressure.Replace('_', ' ')).OrThrow()
                : null,
            Measures = members.TryGetValue("measures", out var measures)
                ? [.. measures.Split(',').Select(Enum.Parse<ProtectiveMeasure>)]
                : [],
            EventId = members.GetValueOrDefault("id"),
            Device = members.GetValueOrDefault("device"),
            Sequence = members.TryGetValue("sequence", out var sequence)
                ? int.Parse(sequence, CultureInfo.InvariantCulture)
                : null,
            ReceivedAt = members.TryGetValue("received", out var received) ? Time(received, day) : null,
        };
    }

    public static TimelineEventKind Kind(string word) =>
        Enum.Parse<TimelineEventKind>(word.Replace("_", "", StringComparison.Ordinal), ignoreCase: true);

    public static SourceReference Reference(string word) =>
        word switch
        {
            "all" => new SourceReference.All(),
            "group_box" => new SourceReference.GroupBox(),
            _ => new SourceReference.One(new(word)),
        };

    private static RecordedTime Time(string word, DateOnly day)
    {
        var text = word.Length switch
        {
            5 => $"{day:yyyy-MM-dd}T{word}:00+01:00",
            8 => $"{day:yyyy-MM-dd}T{word}+01:00",
            _ => word,
        };
        return RecordedTime.Parse(text).OrThrow();
    }
}
