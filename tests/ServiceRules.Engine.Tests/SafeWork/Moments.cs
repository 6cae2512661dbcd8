using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Engine.Tests.SafeWork;

/// <summary>When and by whom something more was done in a random job.</summary>
internal static class Moments
{
    /// <summary>Between an entry and the next, as a rule: entries are a minute apart or more.</summary>
    public static RecordedTime After(TimelineEvent entry, Random random) =>
        After(entry.At, random.Next(6, 55));

    /// <summary>So many seconds later.</summary>
    public static RecordedTime After(RecordedTime at, double seconds) =>
        at is RecordedTime.Instant instant
            ? TimelinePen.Parse((instant.Moment + TimeSpan.FromSeconds(seconds)).ToString())
            : at;

    /// <summary>Mostly one of those who do the work, else anybody of the job.</summary>
    public static Id<Participant> Somebody(ServiceRecord record, Random random)
    {
        var those =
            random.Next(3) == 0 ? record.People : [.. record.People.Where(p => p.Role == JobRole.Performs)];
        return (those.IsEmpty ? record.People : those)[
            random.Next(those.IsEmpty ? record.People.Length : those.Length)
        ].Id;
    }
}
