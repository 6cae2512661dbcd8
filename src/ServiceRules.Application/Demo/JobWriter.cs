using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;
using ServiceRules.Application.Library;
using ServiceRules.Domain;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Application.Demo;

/// <summary>Does one planned job and writes its record.</summary>
internal static class JobWriter
{
    private const string Lead = "lead-01";

    public static ServiceRecord Write(
        string id,
        Visit visit,
        IReadOnlyList<UnitCondition> units,
        decimal hours,
        SiteRegisters site
    )
    {
        var plan = visit.Plan;
        var safety = new SafetyLog(visit, ProcedureOf(plan, site));
        safety.MakeSafe();
        if (plan.Task is ServiceTask.ClearBlockage)
        {
            safety.ClearBlockage();
        }

        var works = new List<UnitWork>();
        for (var index = 0; index < units.Count; index++)
        {
            var log = new UnitLog(units[index], visit, visit.WorkerAt(index, units.Count));
            Work(log, safety);
            works.Add(log.Written());
            safety.RecheckIfDue();
            if (index == Visit.Middle(units.Count))
            {
                MidJob.Happen(safety, visit);
            }
        }

        if (visit.Has(SeededFaultKind.DefectLeftOpen))
        {
            safety.FindDefect();
        }

        if (visit.Plan.ClosesDefect)
        {
            safety.CloseDefect();
        }

        safety.HandBack();
        return Record(id, visit, hours, safety, [.. works], site);
    }

    /// <summary>How long one unit takes beyond turning and reading, seconds: washing, reaching, thinking.</summary>
    private static int Around(ServiceTask task, Chance chance) =>
        task switch
        {
            ServiceTask.FullService => chance.Between(900, 1_500),
            ServiceTask.Grind => chance.Between(1_200, 1_800),
            ServiceTask.TouchUp => chance.Between(120, 300),
            _ => chance.Between(15, 45),
        };

    private static void Work(UnitLog log, SafetyLog safety)
    {
        var task = log.Visit.Plan.Task;
        log.Visit.Clock.Pass(Around(task, log.Visit.Chance));
        switch (task)
        {
            case ServiceTask.DailyCheck:
                ShortWork.DailyCheck(log);
                break;
            case ServiceTask.HeightCheck:
                ShortWork.HeightCheck(log);
                break;
            case ServiceTask.HeightChange:
                ShortWork.HeightChange(log);
                break;
            case ServiceTask.TouchUp:
                ShortWork.TouchUp(log);
                break;
            case ServiceTask.ClearBlockage:
                ShortWork.AfterBlockage(log);
                break;
            case ServiceTask.FullService:
                FullWork.Service(log);
                break;
            case ServiceTask.Grind when log.Visit.Plan.IsAtGrinder:
                TaskRuns.Grind(log, safety);
                break;
            case ServiceTask.Grind:
                FullWork.Grind(log);
                break;
            case ServiceTask.Lap:
                TaskRuns.Lap(log, safety);
                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(log), task, "the scenario has no such task");
        }
    }

    private static ServiceRecord Record(
        string id,
        Visit visit,
        decimal hours,
        SafetyLog safety,
        ImmutableArray<UnitWork> units,
        SiteRegisters site
    )
    {
        var plan = visit.Plan;
        visit.Clock.Pass(visit.Chance.Between(60, 240));
        var signedAt = visit.Clock.Now;
        var isOneMachine = plan.Others.Count == 0;
        return new()
        {
            Id = new(id),
            Date = plan.Day,
            Place = plan.Place,
            Machine = new(
                new(isOneMachine ? PlaceOf(plan) : "BENCH-1"),
                plan.Machine.Area,
                isOneMachine && !plan.IsAtGrinder
                    ? OperatingHours.Parse(FormattableString.Invariant($"{hours:0.0} h")).OrThrow()
                    : null
            ),
            Tasks = [plan.Task],
            People = People(visit),
            Instruments = [.. visit.Instruments.Taken],
            Timeline = safety.Written(),
            Units = units,
            Complaint = plan.Complaint,
            Requested = Requested(id, plan, site),
            Photos = Photos(id, plan, units),
            SignOff = visit.Has(SeededFaultKind.NotSignedOff)
                ? null
                : new(new(visit.IsInShifts ? visit.Crew[^1] : visit.Crew[0]), signedAt),
            Releases = Releases(visit, signedAt, units),
            FollowUp = plan.IsFollowedUp ? FollowUp(visit) : null,
        };
    }

    private static ImmutableArray<Participant> People(Visit visit)
    {
        var needsLead =
            visit.Plan.Requested is not null
            || visit.Plan.Task is ServiceTask.FullService or ServiceTask.Grind
            || visit.Has(SeededFaultKind.LockTakenOffByAnother)
            || visit.Plan.Oddity is OddityKind.LetOutBySecondPerson;
        return
        [
            .. visit.Crew.Select(
                (person, index) =>
                    new Participant(new(person), index == 0 ? JobRole.Performs : JobRole.Assists)
            ),
            .. needsLead ? [new Participant(new(Lead), JobRole.Leads)] : Array.Empty<Participant>(),
            .. visit.Plan.Place is WorkPlace.OnMachine
                ? [new Participant(new(visit.Plan.Machine.Operator), JobRole.Affected)]
                : Array.Empty<Participant>(),
        ];
    }

    private static ImmutableArray<RequestedSetting> Requested(
        string id,
        PlannedJob plan,
        SiteRegisters site
    ) =>
        plan.Requested is { } height
            ?
            [
                new(
                    MeasuredQuantity.HeightOfCut,
                    PrintedLength.Of(height, LengthUnit.Millimetre).OrThrow(),
                    new(Lead)
                )
                {
                    Card = $"JC-{id}",
                    Order = site
                        .SettingOrders.Where(order => order.From <= plan.Day && !(order.Until < plan.Day))
                        .Select(order => order.Id)
                        .First(),
                },
            ]
            : [];

    private static ImmutableArray<Photo> Photos(string id, PlannedJob plan, ImmutableArray<UnitWork> units)
    {
        var shows = plan.Task switch
        {
            ServiceTask.ClearBlockage => "what was in the reel",
            ServiceTask.Grind => "reel and bedknife after grinding",
            _ => null,
        };
        // The picture itself is kept by the shop; the hash here stands for an invented one.
        return shows is null
            ? []
            :
            [
                new(
                    Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(id + shows))),
                    shows,
                    units[0].Id
                ),
            ];
    }

    private static ImmutableArray<SecondRelease> Releases(
        Visit visit,
        RecordedTime signedAt,
        ImmutableArray<UnitWork> units
    ) =>
        visit.Plan.Oddity is OddityKind.LetOutBySecondPerson
            ?
            [
                new(
                    new(Lead),
                    signedAt,
                    "height-on-target",
                    units[0].Id,
                    "the green rests until it is reseeded; set again with the next check"
                ),
            ]
            : [];

    private static FollowUp FollowUp(Visit visit)
    {
        var at = visit.Clock.Moment + TimeSpan.FromMinutes(visit.Chance.Between(1_180, 1_320));
        return new(
            new(visit.Crew[0]),
            visit.Clock.Said(at),
            Condition.Sound,
            "contact, heights and bolts after the first round"
        );
    }

    /// <summary>By whose name the job goes: the grinder's where it is done there.</summary>
    private static string PlaceOf(PlannedJob plan) => plan.IsAtGrinder ? Fleet.Grinder : plan.Machine.Id;

    private static Procedure ProcedureOf(PlannedJob plan, SiteRegisters site) =>
        site.Procedures.First(procedure =>
            procedure.Place == plan.Place
            && procedure.Machines.Contains(new Id<MachineVisit>(PlaceOf(plan)))
            && !(procedure.From > plan.Day)
            && !(procedure.Until < plan.Day)
        );
}
