using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using ServiceRules.Rules.Tests.Evaluation.Timeline;

namespace ServiceRules.Rules.Tests.Evaluation.Duties;

/// <summary>Registers as a careful site keeps them, for tests to change. The day of the job is 2026-04-13.</summary>
internal static class Registers
{
    public static readonly DateOnly Day = new(2026, 4, 13);

    /// <summary>A person authorised and trained in the ride-on machine's energies.</summary>
    public static RegisteredPerson Trained(string id) =>
        new(new(id), Authorised: true, Day.AddDays(-60), Day.AddDays(300))
        {
            Covers = [new("engine_start"), new("hydraulic"), new("gravity")],
            StatesCovers = true,
        };

    /// <summary>The certificate of an inspection two months before the job.</summary>
    public static ProcedureInspection Certificate { get; } =
        new(
            Day.AddDays(-50),
            new Id<Participant>("lead-01"),
            new Id<MachineVisit>("M-1"),
            [new("tech-01"), new("op-01")],
            [new("tech-01")],
            TagLimitsReviewed: true,
            []
        );

    /// <summary>The job of one person, with everything in its registers as it should be.</summary>
    public static SafetyCase InOrder { get; } =
        MakeSafe.Complete with
        {
            People = [new(new("tech-01"), JobRole.Performs), new(new("op-01"), JobRole.Affected)],
            Procedure = SafetyCase.RideOn with { From = Day.AddDays(-90), Inspection = Certificate },
            Locks = [Red("L-11", "tech-01"), Red("L-12", "tech-01")],
            Register =
            [
                Trained("tech-01"),
                Trained("lead-01"),
                new(new("op-01"), Authorised: false, null, null) { InstructedOn = Day.AddDays(-30) },
            ],
            Registered = context =>
                context with
                {
                    LockStyle = "red",
                    Machines = [new(new("M-1"), "ride-on", SafetyCase.RideOn.Sources)],
                },
        };

    public static RegisteredLock Red(string id, string? owner) =>
        new(new(id), owner is null ? null : new Id<Participant>(owner)) { Style = "red" };

    public static CheckOutcome Judge(this SafetyCase job, EnergyDuty duty) =>
        job.Judge(new Check.EnergyControl(duty));

    public static Verdict Verdict(this SafetyCase job, EnergyDuty duty) => job.Judge(duty).Verdict;

    /// <summary>The register of one person changed.</summary>
    public static SafetyCase Knowing(
        this SafetyCase job,
        string id,
        Func<RegisteredPerson, RegisteredPerson?> change
    ) =>
        job with
        {
            Register =
            [
                .. job
                    .Register.Select(person => person.Id.Text == id ? change(person) : person)
                    .OfType<RegisteredPerson>(),
            ],
        };

    /// <summary>The certificate of the inspection changed.</summary>
    public static SafetyCase Certified(
        this SafetyCase job,
        Func<ProcedureInspection, ProcedureInspection?> change
    ) => job with { Procedure = job.Procedure! with { Inspection = change(job.Procedure.Inspection!) } };

    /// <summary>The register of machines, and the record beside it, with other sources.</summary>
    public static SafetyCase OfMachineWith(this SafetyCase job, params EnergySource[] sources)
    {
        var before = job.Registered;
        return job with
        {
            Registered = context =>
                before(context) with
                {
                    Machines = [new(new("M-1"), "machine", [.. sources])],
                },
        };
    }

    /// <summary>The claim of an exemption, made before anything else.</summary>
    public static SafetyCase Claiming(this SafetyCase job, ExemptionClaim claim, string by = "tech-01") =>
        job.And($"07:30 exemption_claimed {by}", entry => entry with { Claim = claim });

    /// <summary>One more entry.</summary>
    public static SafetyCase And(
        this SafetyCase job,
        string line,
        Func<TimelineEvent, TimelineEvent>? change = null
    )
    {
        var entry = TimelineLine.Read(line, Day);
        return job with { Entries = job.Entries.Insert(0, change is null ? entry : change(entry)) };
    }

    /// <summary>Measures in the place of isolation.</summary>
    public static SafetyCase Measured(
        this SafetyCase job,
        string line,
        params ProtectiveMeasure[] measures
    ) => job.And(line, entry => entry with { Measures = [.. measures] });
}
