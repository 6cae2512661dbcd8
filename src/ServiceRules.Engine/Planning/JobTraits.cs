using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Engine.Applying;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;

namespace ServiceRules.Engine.Planning;

/// <summary>What applicability may ask about a job. Plans keep it: it holds no record.</summary>
/// <param name="Area">The area that the machine serves.</param>
/// <param name="Place">Where the work is done.</param>
/// <param name="HasIsolation">Whether there is something to switch off.</param>
/// <param name="Date">The day.</param>
/// <param name="Tasks">The tasks of the subject that is asked about.</param>
/// <param name="StillRead">What was read on any of its units and still holds.</param>
internal sealed record JobTraits(
    string? Area,
    WorkPlace Place,
    bool HasIsolation,
    DateOnly Date,
    ImmutableArray<ServiceTask> Tasks,
    ImmutableArray<MeasuredQuantity> StillRead
)
{
    public JobTraits(
        JobFrame frame,
        ImmutableArray<ServiceTask> tasks,
        ImmutableArray<MeasuredQuantity> stillRead
    )
        : this(
            frame.Record.Machine.Area,
            frame.Record.Place,
            frame.HasIsolation,
            frame.Record.Date,
            tasks,
            stillRead
        ) { }

    /// <summary>Whether tasks ask for a rule by themselves.</summary>
    public static bool Ask(Applicability when, ImmutableArray<ServiceTask> tasks) =>
        when.Tasks.IsEmpty || when.Tasks.Any(tasks.Contains);

    /// <summary>What was read on any of these units and still holds.</summary>
    public static ImmutableArray<MeasuredQuantity> StillReadOf(IEnumerable<UnitTraits> units) =>
        UnitTraits.Distinct(units.SelectMany(unit => unit.StillRead));

    /// <summary>The job's own tasks and those of all its units.</summary>
    public static ImmutableArray<ServiceTask> TasksOf(ServiceRecord record, IEnumerable<UnitTraits> units) =>
        UnitTraits.Distinct(record.Tasks.Concat(units.SelectMany(unit => unit.Tasks)));

    /// <summary>One answer for each part that is asked.</summary>
    public IEnumerable<PartAnswer> Answers(Applicability when)
    {
        if (when.From is { } from)
        {
            yield return new(AskedPart.From, from <= Date);
        }

        if (when.Until is { } until)
        {
            yield return new(AskedPart.Until, Date <= until);
        }

        if (when.Place is { } place)
        {
            yield return new(AskedPart.Place, place == Place);
        }

        if (when.Isolation is { } isolation)
        {
            yield return new(AskedPart.Isolation, isolation == HasIsolation);
        }

        if (!when.Areas.IsEmpty)
        {
            yield return new(
                AskedPart.Areas,
                Area is not null && when.Areas.Contains(Area, StringComparer.Ordinal)
            );
        }

        if (!when.Tasks.IsEmpty)
        {
            yield return new(AskedPart.Tasks, Ask(when, Tasks) || when.OrRead.Any(StillRead.Contains));
        }
    }
}
