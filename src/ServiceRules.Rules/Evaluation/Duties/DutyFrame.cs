using System.Collections.Immutable;
using System.Runtime.CompilerServices;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation.Timeline;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>What a duty is judged on: the timeline of one job, the sources it had to reckon with, and the registers.</summary>
internal sealed class DutyFrame
{
    // Sources and claims are asked by every duty: they are read once for a timeline.
    private static readonly ConditionalWeakTable<TimelineReading, JobGround> Grounds = [];

    private readonly JobGround ground;

    private readonly Rule? rule;

    private DutyFrame(Rule? rule, TimelineReading reading, JobGround ground)
    {
        this.rule = rule;
        Reading = reading;
        this.ground = ground;
    }

    /// <summary>The rule that asks.</summary>
    public Rule Rule => rule ?? throw new InvalidOperationException("no rule asks: a job is only told");

    /// <summary>The timeline.</summary>
    public TimelineReading Reading { get; }

    /// <summary>The job.</summary>
    public JobFrame Job => Reading.Frame;

    /// <summary>The record.</summary>
    public ServiceRecord Record => Job.Record;

    /// <summary>The frozen registers.</summary>
    public AssessmentContext Context => Job.Context;

    /// <summary>How its entries are told.</summary>
    public TimelineWords Words => Reading.Words;

    /// <summary>The written procedure in force, or null.</summary>
    public Procedure? Procedure => Job.Procedure;

    /// <summary>The machine as the register has it, or null.</summary>
    public RegisteredMachine? Machine => ground.Machine;

    /// <summary>Every source of the job, those of the procedure first.</summary>
    public ImmutableArray<EffectiveSource> Sources => ground.Sources;

    /// <summary>Exemptions claimed, in judged order.</summary>
    public ImmutableArray<ClaimMade> Claims => ground.Claims;

    /// <summary>Whether hands went into the reach of the blades; where the record does not say, they did.</summary>
    public bool HandsInBladeZone => Record.HandsInBladeZone ?? true;

    /// <summary>What a rule asks of a job.</summary>
    public static DutyFrame Of(Rule rule, JobFrame job)
    {
        var reading = TimelineReading.Of(job);
        return new(rule, reading, Grounds.GetValue(reading, JobGround.Of));
    }

    /// <summary>A job that is told, and of which no rule asks anything.</summary>
    public static DutyFrame Of(JobFrame job)
    {
        var reading = TimelineReading.Of(job);
        return new(null, reading, Grounds.GetValue(reading, JobGround.Of));
    }

    /// <summary>The sources that were there at a place of the timeline.</summary>
    public IEnumerable<EffectiveSource> SourcesAt(TimelinePlace place) =>
        Sources.Where(source => source.IsThereAt(place));

    /// <summary>When a source was off, held, released and proven dead.</summary>
    public SourceReading ReadingOf(EffectiveSource source) => SourceReading.Of(Reading, source.Source);

    /// <summary>A person as the register has them when the job began, or null.</summary>
    public RegisteredPerson? PersonOf(Id<Participant> person) => PersonOf(person, Job.Days.Began);

    /// <summary>A person as the register has them on a day, or null.</summary>
    public RegisteredPerson? PersonOf(Id<Participant> person, DateOnly day) =>
        Context.People.FirstOrDefault(known => known.Id == person)?.On(day);

    /// <summary>A lock or tag as issued, or null.</summary>
    public RegisteredLock? LockOf(Id<LockDevice> device) =>
        Context.Locks.FirstOrDefault(known => known.Id == device);

    /// <summary>The part of a person in the job, or null.</summary>
    public JobRole? RoleOf(Id<Participant> person) =>
        Record.People.FirstOrDefault(one => one.Id == person)?.Role;

    /// <summary>Whether the register knows a person as working for an outside employer.</summary>
    public bool IsFromOutside(Id<Participant> person) => PersonOf(person)?.Employer == Employer.Outside;

    private sealed record JobGround(
        RegisteredMachine? Machine,
        ImmutableArray<EffectiveSource> Sources,
        ImmutableArray<ClaimMade> Claims
    )
    {
        public static JobGround Of(TimelineReading reading) =>
            new(
                EffectiveSources.MachineOf(reading.Frame),
                EffectiveSources.Of(reading),
                [
                    .. reading
                        .Of(TimelineEventKind.ExemptionClaimed)
                        .Where(entry => entry.Event.Claim is not null)
                        .Select(entry => new ClaimMade(entry, entry.Event.Claim!)),
                ]
            );
    }
}
