using System.Collections.Immutable;
using ServiceRules.Application.Library;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation;

namespace ServiceRules.Application.Assessing;

/// <summary>Takes the slice of the site's registers that one record needs, as they stood on its day.</summary>
public static class ContextFreezer
{
    // A job spans days at most; a year on either side keeps the description short and complete for it.
    private const int YearsAround = 1;

    // Long jobs go on for some days after the day they are dated on.
    private const int DaysAround = 30;

    /// <summary>The slice for one record.</summary>
    /// <param name="site">The registers.</param>
    /// <param name="record">The record.</param>
    /// <param name="others">What the other records of the same run show; null: there are none.</param>
    public static AssessmentContext Freeze(
        SiteRegisters site,
        ServiceRecord record,
        WorkElsewhere? others = null
    )
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(record);
        var waivers = site
            .Waivers.Where(w => InForce(w.From, w.Until, record.Date))
            .OrderBy(w => w.Rule, StringComparer.Ordinal)
            .ThenBy(w => w.Unit, StringComparer.Ordinal)
            .ThenBy(w => w.From)
            .ToImmutableArray();
        var procedures = ProceduresOf(site, record);
        var people = PeopleOf(record, waivers, procedures);
        var otherRecords = others?.OtherRecords(record) ?? [];
        var known = people.Concat(PeopleOfOthers(record, otherRecords)).ToHashSet();
        var locks = record.Timeline.Where(e => e.Lock is not null).Select(e => e.Lock!.Value).ToHashSet();
        return new AssessmentContext
        {
            Site = site.Name,
            Jurisdictions = site.Jurisdictions,
            Zone = Around(site.Zone, record.Date),
            SettingOrders =
            [
                .. site
                    .SettingOrders.Where(o => InForce(o.From, o.Until, record.Date))
                    .OrderBy(o => o.From)
                    .ThenBy(o => o.Id),
            ],
            Procedures = procedures,
            People = [.. site.People.Where(p => known.Contains(p.Id)).OrderBy(p => p.Id)],
            Locks = [.. site.Locks.Where(l => locks.Contains(l.Id)).OrderBy(l => l.Id)],
            Waivers = waivers,
            Machines = [.. site.Machines.Where(m => m.Id == record.Machine.Id)],
            Instruments = InstrumentsOf(site, record),
            LockStyle = locks.Count > 0 ? site.LockStyle : null,
            RemovalException = locks.Count > 0 ? site.RemovalException : null,
            Attendance =
            [
                .. site.Attendance.Where(a =>
                    people.Contains(a.Person) && IsNear(a.From, a.Until, record.Date, site.Zone)
                ),
            ],
            Elsewhere =
            [
                .. site.Elsewhere.Where(e =>
                    IsOfJob(e, people, locks) && IsNear(e.From, e.Until, record.Date, site.Zone)
                ),
                .. others?.Beside(record) ?? [],
            ],
            OtherRecords = otherRecords,
        };
    }

    /// <summary>A slice that was frozen before, with what other records show put in the place of what they showed then.</summary>
    /// <param name="site">The registers of today, asked about people whom only those records name.</param>
    /// <param name="before">The slice.</param>
    /// <param name="record">The record it is of.</param>
    /// <param name="elsewhere">Locks and people of the job elsewhere.</param>
    /// <param name="others">What other records show that bears on the job.</param>
    internal static AssessmentContext Again(
        SiteRegisters site,
        AssessmentContext before,
        ServiceRecord record,
        ImmutableArray<Elsewhere> elsewhere,
        ImmutableArray<OtherRecord> others
    )
    {
        // Of whom only those records name, the slice says nothing; where it has no register, none is held.
        var named = PeopleOfOthers(record, others);
        return before with
        {
            Elsewhere = elsewhere,
            OtherRecords = others,
            People =
                before.People.IsEmpty || before.Site != site.Name
                    ? before.People
                    :
                    [
                        .. before
                            .People.Concat(site.People.Where(person => named.Contains(person.Id)))
                            .DistinctBy(person => person.Id)
                            .OrderBy(person => person.Id),
                    ],
        };
    }

    /// <summary>A slice that was frozen before, as if fewer other records were known: of whom only those left out name, it says nothing.</summary>
    internal static AssessmentContext Without(
        AssessmentContext before,
        ServiceRecord record,
        ImmutableArray<Elsewhere> elsewhere,
        ImmutableArray<OtherRecord> others
    )
    {
        var left = PeopleOfOthers(record, others);
        var ofThoseLeftOut = PeopleOfOthers(record, before.OtherRecords);
        ofThoseLeftOut.ExceptWith(left);
        ofThoseLeftOut.ExceptWith(PeopleOf(record, before.Waivers, before.Procedures));
        return before with
        {
            Elsewhere = elsewhere,
            OtherRecords = others,
            People = [.. before.People.Where(person => !ofThoseLeftOut.Contains(person.Id))],
        };
    }

    /// <summary>A site that lists no gauge keeps no register of them, and a record that names none asks for none.</summary>
    private static ImmutableArray<RegisteredInstrument>? InstrumentsOf(
        SiteRegisters site,
        ServiceRecord record
    ) =>
        site.Instruments.IsEmpty || record.Instruments.IsEmpty
            ? null
            :
            [
                .. site
                    .Instruments.Where(known => record.Instruments.Any(used => used.Id == known.Id))
                    .OrderBy(known => known.Id),
            ];

    /// <summary>
    /// Those in force when the job began; where there is none, the last that was, so that it can be told from none at all.
    /// </summary>
    private static ImmutableArray<Procedure> ProceduresOf(SiteRegisters site, ServiceRecord record)
    {
        var day = JobDays.Of(record, site.Zone).Began;
        var there = ProceduresAt(site, record, record.Place, day);
        // A place that the record itself contradicts is judged by what is written of the machine.
        ImmutableArray<Procedure> withMachine =
            record.Place == WorkPlace.OnMachine
                ? there
                : [.. there, .. ProceduresAt(site, record, WorkPlace.OnMachine, day)];
        return
            PlaceContradicted.By(record, withMachine, day).IsEmpty
            && PlaceContradicted.UnitsInPlace(record, withMachine, day).IsEmpty
            && PlaceContradicted.PartsOfAMachine(record, withMachine, day).IsEmpty
            ? there
            : withMachine;
    }

    private static ImmutableArray<Procedure> ProceduresAt(
        SiteRegisters site,
        ServiceRecord record,
        WorkPlace place,
        DateOnly day
    )
    {
        var begun = site
            .Procedures.Where(p =>
                p.Place == place && p.Machines.Contains(record.Machine.Id) && !(p.From > day)
            )
            .ToList();
        var inForce = begun.Where(p => !(p.Until < day)).OrderBy(p => p.Id).ToImmutableArray();
        return inForce.IsEmpty
            ? [.. begun.OrderByDescending(p => p.Until).ThenBy(p => p.Id).Take(1)]
            : inForce;
    }

    private static bool IsOfJob(
        Elsewhere elsewhere,
        HashSet<Id<Participant>> people,
        HashSet<Id<LockDevice>> locks
    ) =>
        elsewhere switch
        {
            LockElsewhere hung => locks.Contains(hung.Lock),
            PersonElsewhere at => people.Contains(at.Person),
            _ => false,
        };

    private static bool IsNear(RecordedTime from, RecordedTime? until, DateOnly day, SiteZone zone) =>
        DayOf(from, zone) <= day.AddDays(DaysAround)
        && (until is null || day.AddDays(-DaysAround) <= DayOf(until, zone));

    private static DateOnly DayOf(RecordedTime time, SiteZone zone) =>
        DateOnly.FromDateTime(JudgedOrder.MomentOf(time, zone).Utc.UtcDateTime);

    private static SiteZone Around(SiteZone zone, DateOnly day)
    {
        var from = new DateTimeOffset(day.Year - YearsAround, 1, 1, 0, 0, 0, TimeSpan.Zero);
        var until = new DateTimeOffset(day.Year + YearsAround + 1, 1, 1, 0, 0, 0, TimeSpan.Zero);
        var kept = zone.Transitions.Where(t => t.At.Utc >= from && t.At.Utc < until).ToImmutableArray();
        var trimmed = SiteZone.Of(zone.Name, zone.DataVersion, zone.OffsetMinutesAt(Moment.From(from)), kept);
        return trimmed.TryGet(out var around, out _) ? around : zone;
    }

    private static HashSet<Id<Participant>> PeopleOf(
        ServiceRecord record,
        ImmutableArray<Waiver> waivers,
        ImmutableArray<Procedure> procedures
    ) =>
        [
            .. record.People.Select(p => p.Id),
            .. record.Timeline.Select(e => e.Actor),
            .. record.Timeline.SelectMany(e => e.Others),
            .. record.Releases.Select(r => r.By),
            .. waivers.Select(w => w.By),
            .. record.Timeline.Select(e => e.Claim?.DecidedBy).OfType<Id<Participant>>(),
            .. procedures.Select(p => p.Inspection?.Inspector).OfType<Id<Participant>>(),
            .. procedures
                .SelectMany(p => p.EnergisedTasks)
                .Select(t => t.ApprovedBy)
                .OfType<Id<Participant>>(),
            .. procedures.SelectMany(p => p.EnergisedTasks).SelectMany(t => t.Operators),
        ];

    /// <summary>
    /// Those whom only another record names, and the register is asked about: who is over its people, and who hung a lock that comes
    /// off in this one.
    /// </summary>
    internal static HashSet<Id<Participant>> PeopleOfOthers(
        ServiceRecord record,
        ImmutableArray<OtherRecord> others
    )
    {
        var off = record
            .Timeline.Where(e => e.Kind is TimelineEventKind.LockRemoved or TimelineEventKind.TagRemoved)
            .Select(e => e.Lock)
            .OfType<Id<LockDevice>>()
            .ToHashSet();
        return
        [
            .. others
                .SelectMany(other => other.Timeline)
                .SelectMany(e =>
                    e.Kind switch
                    {
                        TimelineEventKind.PrimaryAssigned or TimelineEventKind.CoordinatorAssigned =>
                            e.Others.IsEmpty ? [e.Actor] : e.Others,
                        TimelineEventKind.LockApplied
                        or TimelineEventKind.TagApplied when e.Lock is { } device && off.Contains(device) =>
                        [
                            e.Actor,
                        ],
                        _ => ImmutableArray<Id<Participant>>.Empty,
                    }
                ),
        ];
    }

    private static bool InForce(DateOnly from, DateOnly? until, DateOnly day) =>
        from <= day && (until is null || day <= until);
}
