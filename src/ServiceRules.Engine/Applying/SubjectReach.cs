using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Engine.Planning;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;

namespace ServiceRules.Engine.Applying;

/// <summary>
/// Whether a rule applies to one subject of a record, and by which parts of what it asks. What is asked of units must hold, for
/// the set, the job and the programme, for at least one and the same unit.
/// </summary>
public sealed record SubjectReach
{
    private SubjectReach() { }

    /// <summary>The subject.</summary>
    public required Subject Subject { get; init; }

    /// <summary>The tasks that were looked at: the unit's own, or those of the job and all its units.</summary>
    public required ImmutableArray<ServiceTask> Tasks { get; init; }

    /// <summary>One answer for each part that is asked of the job.</summary>
    public required ImmutableArray<PartAnswer> OfJob { get; init; }

    /// <summary>The unit, or all units of the record.</summary>
    public required ImmutableArray<UnitReach> Units { get; init; }

    /// <summary>Whether the tasks ask for the rule; else it applies at most because of what was read.</summary>
    public required bool IsAskedByTasks { get; init; }

    /// <summary>Whether the rule applies.</summary>
    public bool Applies => OfJob.All(answer => answer.Holds) && Units.Any(unit => unit.Holds);

    /// <summary>How far one rule reaches on a record: every subject of its scope.</summary>
    /// <param name="rule">The rule; whether it is in force is not asked.</param>
    /// <param name="frame">What is known from the record.</param>
    public static ImmutableArray<SubjectReach> Of(Rule rule, JobFrame frame)
    {
        ArgumentNullException.ThrowIfNull(rule);
        ArgumentNullException.ThrowIfNull(frame);
        var units = frame.Units.Select(unit => (Unit: unit, Traits: new UnitTraits(unit))).ToList();
        return rule.Scope switch
        {
            RuleScope.Unit =>
            [
                .. units.Select(one =>
                    Of(rule, frame, new Subject.Unit(one.Unit.Work.Id), one.Traits.Tasks, [one])
                ),
            ],
            RuleScope.Set => [OfAll(new Subject.Set())],
            RuleScope.Programme => [OfAll(new Subject.Programme())],
            _ => [OfAll(new Subject.Job())],
        };

        SubjectReach OfAll(Subject subject) =>
            Of(rule, frame, subject, JobTraits.TasksOf(frame.Record, units.Select(one => one.Traits)), units);
    }

    private static SubjectReach Of(
        Rule rule,
        JobFrame frame,
        Subject subject,
        ImmutableArray<ServiceTask> tasks,
        IReadOnlyCollection<(UnitFrame Unit, UnitTraits Traits)> units
    ) =>
        new()
        {
            Subject = subject,
            Tasks = tasks,
            IsAskedByTasks = JobTraits.Ask(rule.When, tasks),
            OfJob =
            [
                .. new JobTraits(
                    frame,
                    tasks,
                    JobTraits.StillReadOf(units.Select(one => one.Traits))
                ).Answers(rule.When),
            ],
            Units =
            [
                .. units.Select(one => new UnitReach(
                    one.Unit,
                    one.Traits,
                    [.. one.Traits.Answers(rule.When)]
                )),
            ],
        };
}
