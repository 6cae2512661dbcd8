using ServiceRules.Domain.Records;
using ServiceRules.Rules.Model;

namespace ServiceRules.Oracle;

/// <summary>Whether a rule concerns a unit or a job, and what is in force on the day.</summary>
internal static class Applies
{
    public static bool ToUnit(Rule rule, ServiceRecord record, UnitWork unit, Facts facts)
    {
        var when = rule.When;
        var sheet = facts.Book.Sheet(unit.Sheet)!;
        var tasks = unit.Tasks.IsEmpty ? record.Tasks : unit.Tasks;
        return ToJob(when with { Tasks = [] }, record, facts)
            && (when.Tasks.IsEmpty || when.Tasks.Any(t => tasks.Contains(t)))
            && (when.Sheets.IsEmpty || when.Sheets.Contains(unit.Sheet))
            && (when.Bedknife is null || when.Bedknife == sheet.Bedknife)
            && when.Attachments.All(a => unit.Attachments.Contains(a))
            && (when.School is null || when.School == facts.School(unit.Sheet))
            && (
                when.AnyTurned.IsEmpty
                || unit.Entries.OfType<Adjustment>().Any(a => when.AnyTurned.Contains(a.Adjuster))
            )
            && (
                when.AnyRead.IsEmpty
                || unit.Entries.OfType<Reading>().Any(r => when.AnyRead.Contains(r.Quantity))
            )
            && (
                when.AnyReadAlong.IsEmpty
                || when.AnyReadAlong.Any(q =>
                    new Spots(facts, unit, q).All.Where(s => s.At is not null).DistinctBy(s => s.At).Count()
                    > 1
                )
            )
            && (when.Ground is null || when.Ground == unit.Entries.OfType<Grinding>().Any())
            && (when.SheetStates is not { } stated || sheet.Of(stated) is not null);
    }

    /// <summary>The parts of a condition that speak of the whole job.</summary>
    public static bool ToJob(Applicability when, ServiceRecord record, Facts facts) =>
        (when.Tasks.IsEmpty || when.Tasks.Any(t => JobTasks(record).Contains(t)))
        && (when.Areas.IsEmpty || (record.Machine.Area is { } area && when.Areas.Contains(area)))
        && (when.Place is null || when.Place == record.Place)
        && (
            when.Isolation is not { } isolation
            || isolation
                == (
                    record.Place == WorkPlace.OnMachine
                    || (facts.Procedure?.Sources ?? []).Any(source => source.Isolator is not null)
                )
        )
        && (when.From is not { } from || record.Date >= from)
        && (when.Until is not { } until || record.Date <= until);

    private static IEnumerable<ServiceTask> JobTasks(ServiceRecord record) =>
        record.Tasks.Concat(record.Units.SelectMany(u => u.Tasks));
}
