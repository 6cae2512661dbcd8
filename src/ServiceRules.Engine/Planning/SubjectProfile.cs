using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Domain.Records;
using ServiceRules.Engine.Applying;
using ServiceRules.Engine.Inference;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;

namespace ServiceRules.Engine.Planning;

/// <summary>
/// All that applicability may ask about a unit, the set or the job. Subjects of different jobs with the same
/// <see cref="Key"/> have the same rules apply to them, so a plan asks the network once per key.
/// </summary>
internal sealed record SubjectProfile : Fact
{
    private readonly ImmutableArray<UnitTraits> _units;
    private readonly RuleScope _scope;
    private readonly JobTraits _job;

    private SubjectProfile(
        RuleScope scope,
        JobFrame frame,
        DateSlots slots,
        ImmutableArray<ServiceTask> tasks,
        ImmutableArray<UnitTraits> units
    )
    {
        _scope = scope;
        var record = frame.Record;
        _job = new(frame, tasks, JobTraits.StillReadOf(units));
        _units = units;
        // The area is free text: its length in front keeps its content from being read as another part of the key.
        var area = record.Machine.Area is { } named
            ? string.Create(CultureInfo.InvariantCulture, $"{named.Length}:{named}")
            : "-";
        Key = string.Create(
            CultureInfo.InvariantCulture,
            $"{scope}|{area}|{record.Place}|{_job.HasIsolation}|{slots.Of(record.Date)}|{string.Join(',', tasks)}|{string.Join('/', units.Select(u => u.Key))}"
        );
    }

    public string Key { get; }

    public bool Equals(SubjectProfile? other) =>
        other is not null && string.Equals(Key, other.Key, StringComparison.Ordinal);

    public override int GetHashCode() => StringComparer.Ordinal.GetHashCode(Key);

    public static SubjectProfile OfUnit(UnitTraits unit, JobFrame frame, DateSlots slots) =>
        new(RuleScope.Unit, frame, slots, unit.Tasks, [unit]);

    /// <summary>The set or the job: its tasks are the job's own and those of all its units.</summary>
    public static SubjectProfile OfAll(
        RuleScope scope,
        ImmutableArray<UnitTraits> units,
        JobFrame frame,
        DateSlots slots
    ) =>
        new(
            scope,
            frame,
            slots,
            JobTraits.TasksOf(frame.Record, units),
            [.. units.DistinctBy(unit => unit.Key).OrderBy(unit => unit.Key, StringComparer.Ordinal)]
        );

    /// <summary>
    /// Whether a rule of this scope and applicability applies. What is asked of a unit must hold, for a rule on the
    /// set or the job, for at least one and the same unit.
    /// </summary>
    public bool Satisfies(RuleScope scope, Applicability when) =>
        scope == _scope
        && _job.Answers(when).All(answer => answer.Holds)
        && _units.Any(unit => unit.Satisfies(when));
}
