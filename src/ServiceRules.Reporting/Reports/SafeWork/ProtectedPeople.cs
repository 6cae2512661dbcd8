using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>Who was protected from what, as the checks read it.</summary>
internal static class ProtectedPeople
{
    public static ImmutableArray<ProtectedPerson> Of(SafeWorkView view) =>
        [.. view.Reading.HandsIn.Select(person => Of(view.Reading, person))];

    private static ProtectedPerson Of(TimelineReading reading, Id<Participant> person)
    {
        var work = IntervalSet.Of(
            reading.Works.Where(one => one.Person == person).Select(one => one.Interval)
        );
        return reading.Protection is { } protection
            ? new(
                person,
                work,
                protection.ProtectedFor(person),
                [.. protection.Sources.Select(source => Of(reading, protection, person, source))]
            )
            : new(person, work, null, []);
    }

    private static ProtectedSource Of(
        TimelineReading reading,
        ProtectionReading protection,
        Id<Participant> person,
        SourceReading source
    )
    {
        var control = source.HasIsolator ? protection.ControlOf(person, source.Source) : null;
        var safe = source.Proven.Without(reading.Running);
        return new(source, control, control is null ? safe : safe.And(control));
    }
}
