using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Timeline;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Vocabulary;

namespace ServiceRules.Formats.Registers;

/// <summary>The wall clock of a site, frozen with the version of the zone data.</summary>
internal static class ZoneShapes
{
    // The most that RFC 3339 can write.
    private const int LargestOffset = (23 * 60) + 59;

    private static readonly JsonShape<Moment> UtcMoment = Terms.Time.AsParsed(
        time =>
            time is RecordedTime.Instant instant
                ? Parsed<Moment>.Of(instant.Moment)
                : Parsed<Moment>.Refused(
                    new ParseFailure(time.Text, "a time with its offset, such as `2026-03-29T01:00:00Z`")
                    {
                        Problem = "this time has no offset",
                    }
                ),
        moment => RecordedTime.Parse(moment.ToString()).OrThrow()
    );

    private static readonly ObjectShape<ZoneTransition> TransitionObject = Shape.Object<ZoneTransition>(
        "zone-transition",
        "A moment at which the wall clocks of a zone were or will be moved.",
        o =>
        {
            var at = o.Required("at", UtcMoment, "the first moment of the new offset", t => t.At);
            var offset = o.Required(
                "offsetMinutes",
                Shape.Whole(-LargestOffset, LargestOffset),
                "how far clocks are ahead of UTC from then on",
                t => t.OffsetMinutes
            );
            return v => new ZoneTransition(v.Get(at), v.Get(offset));
        }
    );

    private static readonly ObjectShape<Description> DescriptionObject = Shape.Object<Description>(
        "site-zone",
        "The wall clock of a site: a named zone as one version of the zone data describes it.",
        o =>
        {
            var name = o.Required(
                "name",
                Shape.Line(64),
                "the name of the zone in the zone data",
                z => z.Name
            );
            var version = o.Required(
                "dataVersion",
                Shape.Line(64),
                "the version of the zone data",
                z => z.Version
            );
            var first = o.Required(
                "firstOffsetMinutes",
                Shape.Whole(-LargestOffset, LargestOffset),
                "how far clocks were ahead of UTC before the first transition",
                z => z.FirstOffset
            );
            var transitions = o.Items(
                "transitions",
                TransitionObject,
                FormatLimits.ZoneTransitions,
                "the moments at which clocks are moved, oldest first",
                z => z.Transitions
            );
            return v => new Description(v.Get(name), v.Get(version), v.Get(first), v.Get(transitions));
        }
    );

    public static JsonShape<SiteZone> Zone { get; } =
        DescriptionObject.AsParsed(
            zone => SiteZone.Of(zone.Name, zone.Version, zone.FirstOffset, zone.Transitions),
            zone => new Description(zone.Name, zone.DataVersion, zone.FirstOffsetMinutes, zone.Transitions)
        );

    private sealed record Description(
        string Name,
        string Version,
        int FirstOffset,
        ImmutableArray<ZoneTransition> Transitions
    );
}
