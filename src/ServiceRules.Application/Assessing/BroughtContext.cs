using System.Collections.Immutable;
using System.Text.Json.Nodes;
using ServiceRules.Application.Filed;
using ServiceRules.Application.Library;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Formats.Registers;

namespace ServiceRules.Application.Assessing;

/// <summary>
/// A context that lies beside a record, handed in by whoever handed in the record. It is judged with, and where it is other than the
/// site's registers of that day it says so; what the site's procedures and register of machines have of sources, and it has not, is
/// judged as well.
/// </summary>
public static class BroughtContext
{
    private const string SiteName = "site";

    // What other records show depends on which were given; zone data are kept up by whoever made the program.
    private static readonly ImmutableHashSet<string> NotRegisters = ["elsewhere", "otherRecords", "zone"];

    /// <summary>
    /// The context that a filed record is judged with; null: that of the site. One out of a signed report stays as it was frozen.
    /// </summary>
    internal static AssessmentContext? Of(FiledRecord filed, SiteRegisters site) =>
        filed is { Context: { } brought, Book: null } ? Held(site, filed.Record, brought) : filed.Context;

    /// <summary>The parts in which a context is other than the site's registers of the day of a record.</summary>
    public static ImmutableArray<string> Differing(
        SiteRegisters site,
        ServiceRecord record,
        AssessmentContext brought
    )
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(record);
        ArgumentNullException.ThrowIfNull(brought);
        // The registers of another site are not ours to hold against it.
        return string.Equals(site.Name, brought.Site, StringComparison.Ordinal)
            ? Differing(Own(site, record, brought), brought)
            : [SiteName];
    }

    private static AssessmentContext Held(SiteRegisters site, ServiceRecord record, AssessmentContext brought)
    {
        var differing = Differing(site, record, brought);
        var held = brought with { OtherThanTheSites = differing };
        if (differing.Contains(SiteName))
        {
            return held;
        }

        // What a gauge is worth is the site's to say, whatever was handed in.
        var own = Own(site, record, brought);
        held = held with { Instruments = own.Instruments ?? held.Instruments };
        return differing.IsEmpty ? held : WithSourcesOf(own, held, record);
    }

    private static AssessmentContext Own(SiteRegisters site, ServiceRecord record, AssessmentContext brought)
    {
        var own = ContextFreezer.Freeze(site, record);
        var named = ContextFreezer.PeopleOfOthers(record, brought.OtherRecords);
        return own with
        {
            People =
            [
                .. own
                    .People.Concat(site.People.Where(person => named.Contains(person.Id)))
                    .DistinctBy(person => person.Id)
                    .OrderBy(person => person.Id),
            ],
        };
    }

    private static ImmutableArray<string> Differing(AssessmentContext own, AssessmentContext brought)
    {
        // A context that says nothing of gauges contradicts nobody.
        var ofSite = brought.Instruments is null ? own with { Instruments = null } : own;
        var (ours, theirs) = (Members(ofSite), Members(brought));
        return
        [
            .. ours.Select(one => one.Key)
                .Union(theirs.Select(one => one.Key), StringComparer.Ordinal)
                .Where(name => !NotRegisters.Contains(name) && !JsonNode.DeepEquals(ours[name], theirs[name]))
                .Order(StringComparer.Ordinal),
        ];
    }

    private static JsonObject Members(AssessmentContext context) =>
        JsonNode.Parse(ContextFormat.Current.Write(context with { OtherThanTheSites = [] }))!.AsObject();

    /// <summary>
    /// Nothing that the site has of a danger is left out, and of a source that both have the stricter word counts: on the machine its
    /// sources stand in the register beside the procedure; the bench has no register, so that there they stand in its procedure, and
    /// where none is brought for this bench, in that of the site.
    /// </summary>
    private static AssessmentContext WithSourcesOf(
        AssessmentContext own,
        AssessmentContext brought,
        ServiceRecord record
    )
    {
        var ours = SourcesOf(own, WorkPlace.OnMachine)
            .Concat(own.Machines.SelectMany(machine => machine.Sources));
        var machine =
            brought.Machines.FirstOrDefault(one => one.Id == record.Machine.Id)
            ?? new RegisteredMachine(record.Machine.Id, record.Machine.Id.Text, []);
        var sources = machine
            .Sources.Concat(ours)
            .GroupBy(source => source.Id)
            .Select(same => same.Aggregate(Stricter))
            .ToImmutableArray();
        var bench = SourcesOf(own, WorkPlace.OnBench).ToImmutableArray();
        var hasBench = brought.Procedures.Any(one =>
            one.Place == WorkPlace.OnBench && one.Machines.Contains(record.Machine.Id)
        );
        return brought with
        {
            Machines = sources.IsEmpty
                ? brought.Machines
                :
                [
                    .. brought.Machines.Where(one => one.Id != machine.Id),
                    machine with
                    {
                        Sources = sources,
                        Areas = own.Machines.FirstOrDefault(one => one.Id == machine.Id)
                            is { Areas.IsEmpty: false } kept
                            ? kept.Areas
                            : machine.Areas,
                    },
                ],
            Procedures =
            [
                .. brought.Procedures.Select(one =>
                    one.Place == WorkPlace.OnBench
                        ? one with
                        {
                            Sources =
                            [
                                .. one
                                    .Sources.Concat(bench)
                                    .GroupBy(source => source.Id)
                                    .Select(same => same.Aggregate(Stricter)),
                            ],
                        }
                        : one
                ),
                .. own.Procedures.Where(one => !hasBench && one.Place == WorkPlace.OnBench),
            ],
        };
    }

    private static IEnumerable<EnergySource> SourcesOf(AssessmentContext context, WorkPlace place) =>
        context
            .Procedures.Where(one => one.Place == place)
            .SelectMany(one => one.Sources)
            .DistinctBy(source => source.Id);

    private static EnergySource Stricter(EnergySource one, EnergySource other) =>
        one with
        {
            Isolator = one.Isolator ?? other.Isolator,
            Lockable = one.Lockable || other.Lockable,
            Stored = one.Stored || other.Stored,
            Reaccumulates = one.Reaccumulates || other.Reaccumulates,
            Release = one.Release ?? other.Release,
            RecheckMinutes =
                one.RecheckMinutes < other.RecheckMinutes
                    ? one.RecheckMinutes
                    : other.RecheckMinutes ?? one.RecheckMinutes,
            RecheckLimit =
                one.RecheckLimit is { } limit && !(other.RecheckLimit < limit) ? limit : other.RecheckLimit,
        };
}
