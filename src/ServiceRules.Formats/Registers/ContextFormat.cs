using ServiceRules.Domain.Site;
using ServiceRules.Formats.Json;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Vocabulary;

namespace ServiceRules.Formats.Registers;

/// <summary>The frozen context of an assessment as a document.</summary>
public static class ContextFormat
{
    private static readonly ObjectShape<AssessmentContext> Root = Shape.Object<AssessmentContext>(
        "assessment-context",
        "The frozen slice of the site's registers that an assessment needs.",
        o =>
        {
            var site = o.Required("site", Terms.Title, "which site", c => c.Site);
            var jurisdictions = o.Items(
                "jurisdictions",
                Terms.Identity,
                FormatLimits.Words,
                "jurisdiction packs in force",
                c => c.Jurisdictions
            );
            var zone = o.Required("zone", ZoneShapes.Zone, "the site's wall clock", c => c.Zone);
            var orders = o.Items(
                "settingOrders",
                SettingOrderShapes.Order,
                FormatLimits.Words,
                "setting orders in force on the day of the record",
                c => c.SettingOrders
            );
            var procedures = o.Items(
                "procedures",
                ProcedureShapes.Procedure,
                FormatLimits.Words,
                "written procedures of the machines and benches concerned",
                c => c.Procedures
            );
            var people = o.Items(
                "people",
                RegisterShapes.Person,
                FormatLimits.Register,
                "people as the register knows them",
                c => c.People
            );
            var locks = o.Items(
                "locks",
                RegisterShapes.Lock,
                FormatLimits.Register,
                "locks and tags as issued",
                c => c.Locks
            );
            var waivers = o.Items(
                "waivers",
                RegisterShapes.Waiver,
                FormatLimits.Register,
                "waivers in force on the day of the record",
                c => c.Waivers
            );
            var machines = o.Items(
                "machines",
                WhereaboutsShapes.Machine,
                FormatLimits.Words,
                "the machine as the register has it",
                c => c.Machines
            );
            var instruments = o.Optional(
                "instruments",
                Shape.List(RegisterShapes.Instrument, 0, FormatLimits.Register),
                "the gauges of the record as the register has them; left out: the site keeps no register of gauges",
                c => c.Instruments
            );
            var style = o.Optional(
                "lockStyle",
                Terms.Title,
                "how the site's locks and tags look",
                c => c.LockStyle
            );
            var removal = o.Optional(
                "removalException",
                WhereaboutsShapes.RemovalException,
                "the site's written way to take off the device of somebody who is not there",
                c => c.RemovalException
            );
            var attendance = o.Items(
                "attendance",
                WhereaboutsShapes.Attendance,
                FormatLimits.Register,
                "when the people of the job were on the site",
                c => c.Attendance
            );
            var elsewhere = o.Items(
                "elsewhere",
                WhereaboutsShapes.Elsewhere,
                FormatLimits.Register,
                "locks and people of the job that other records show at other machines",
                c => c.Elsewhere
            );
            var others = o.Items(
                "otherRecords",
                OtherRecordShapes.Record,
                FormatLimits.Register,
                "what other records show that bears on the job",
                c => c.OtherRecords
            );
            var differing = o.Items(
                "otherThanTheSites",
                Terms.Identity,
                FormatLimits.Words,
                "parts in which a context handed in with the record is other than the site's registers of that day",
                c => c.OtherThanTheSites
            );
            return v => new AssessmentContext
            {
                Site = v.Get(site),
                Jurisdictions = v.Get(jurisdictions),
                Zone = v.Get(zone),
                SettingOrders = v.Get(orders),
                Procedures = v.Get(procedures),
                People = v.Get(people),
                Locks = v.Get(locks),
                Waivers = v.Get(waivers),
                Machines = v.Get(machines),
                Instruments = v.Get(instruments),
                LockStyle = v.Get(style),
                RemovalException = v.Get(removal),
                Attendance = v.Get(attendance),
                Elsewhere = v.Get(elsewhere),
                OtherRecords = v.Get(others),
                OtherThanTheSites = v.Get(differing),
            };
        }
    );

    /// <summary>The version that is written today.</summary>
    public static DocumentFormat<AssessmentContext> Current { get; } =
        new("assessment-context", 1, ReadLimits.Library, Root);
}
