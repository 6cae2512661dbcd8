using ServiceRules.Domain.Site;
using ServiceRules.Formats.Json;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Vocabulary;

namespace ServiceRules.Formats.Registers;

/// <summary>The documents of a site's folder.</summary>
public static class SiteFormat
{
    private static readonly ObjectShape<SiteFile> SiteObject = Shape.Object<SiteFile>(
        "site",
        "What a site says of itself.",
        o =>
        {
            var name = o.Required("name", Terms.Title, "the site's name", s => s.Name);
            var jurisdictions = o.Items(
                "jurisdictions",
                Terms.Identity,
                FormatLimits.Words,
                "jurisdiction packs in force",
                s => s.Jurisdictions
            );
            var zone = o.Required("zone", ZoneShapes.Zone, "its wall clock", s => s.Zone);
            var style = o.Optional(
                "lockStyle",
                Terms.Title,
                "how the site's locks and tags look",
                s => s.LockStyle
            );
            var removal = o.Optional(
                "removalException",
                WhereaboutsShapes.RemovalException,
                "the site's written way to take off the device of somebody who is not there",
                s => s.RemovalException
            );
            return v => new SiteFile(v.Get(name), v.Get(jurisdictions), v.Get(zone))
            {
                LockStyle = v.Get(style),
                RemovalException = v.Get(removal),
            };
        }
    );

    private static readonly ObjectShape<RegistersFile> RegistersObject = Shape.Object<RegistersFile>(
        "registers",
        "A site's people, locks, waivers and instruments.",
        o =>
        {
            var people = o.Items(
                "people",
                RegisterShapes.Person,
                FormatLimits.Register,
                "people",
                r => r.People
            );
            var locks = o.Items(
                "locks",
                RegisterShapes.Lock,
                FormatLimits.Register,
                "locks and tags",
                r => r.Locks
            );
            var waivers = o.Items(
                "waivers",
                RegisterShapes.Waiver,
                FormatLimits.Register,
                "waivers",
                r => r.Waivers
            );
            var instruments = o.Items(
                "instruments",
                RegisterShapes.Instrument,
                FormatLimits.Register,
                "gauges, against which `rules check` holds the limits",
                r => r.Instruments
            );
            var machines = o.Items(
                "machines",
                WhereaboutsShapes.Machine,
                FormatLimits.Register,
                "machines, with every source of energy they have",
                r => r.Machines
            );
            var attendance = o.Items(
                "attendance",
                WhereaboutsShapes.Attendance,
                FormatLimits.Attendance,
                "when people were on the site",
                r => r.Attendance
            );
            var elsewhere = o.Items(
                "elsewhere",
                WhereaboutsShapes.Elsewhere,
                FormatLimits.Attendance,
                "locks on, and people at, machines whose records stand elsewhere",
                r => r.Elsewhere
            );
            return v => new RegistersFile(v.Get(people), v.Get(locks), v.Get(waivers), v.Get(instruments))
            {
                Machines = v.Get(machines),
                Attendance = v.Get(attendance),
                Elsewhere = v.Get(elsewhere),
            };
        }
    );

    /// <summary>`site.json`.</summary>
    public static DocumentFormat<SiteFile> Site { get; } = new("site", 1, ReadLimits.Record, SiteObject);

    /// <summary>`registers.json`.</summary>
    public static DocumentFormat<RegistersFile> Registers { get; } =
        new("registers", 1, ReadLimits.Library, RegistersObject);

    /// <summary>`procedures/*.json`.</summary>
    public static DocumentFormat<Procedure> Procedure { get; } =
        new("procedure", 1, ReadLimits.Record, ProcedureShapes.Procedure);
}
