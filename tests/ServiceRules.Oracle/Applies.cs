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
            && (AskedOf(when, tasks) || ReadOn(when, unit, sheet))
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
        (
            AskedOf(when, JobTasks(record))
            || record.Units.Any(u => ReadOn(when, u, facts.Book.Sheet(u.Sheet)!))
        )
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

    /// <summary>The tasks of the unit, or of the whole job where there is none, are among those that the rule names.</summary>
    public static bool Asked(Rule rule, ServiceRecord record, string? unit)
    {
        var one = record.Units.FirstOrDefault(u => u.Id.Text == unit);
        return AskedOf(
            rule.When,
            one is null ? JobTasks(record)
                : one.Tasks.IsEmpty ? record.Tasks
                : one.Tasks
        );
    }

    private static bool AskedOf(Applicability when, IEnumerable<ServiceTask> tasks) =>
        when.Tasks.IsEmpty || when.Tasks.Any(t => tasks.Contains(t));

    /// <summary>Something of what the rule names was read, and nothing after it in the log makes that reading void.</summary>
    private static bool ReadOn(Applicability when, UnitWork unit, LimitSheet sheet)
    {
        var replay = new BenchReplay(unit, sheet);
        for (int i = 0; i < unit.Entries.Length; i++)
        {
            bool holds = unit.Entries[i] switch
            {
                Reading { Observed: Observation.Contact or Observation.Paper } seen => when.OrRead.Contains(
                    seen.Quantity
                ) && replay.After(seen.Quantity, i) is { IsVoid: false, Carried.Count: 0 },
                Reading read => when.OrRead.Contains(read.Quantity) && !replay.After(read.Quantity, i).IsVoid,
                Grinding { After: not null } ground => when.OrRead.Contains(ground.States)
                    && !replay.After(ground.States, i).IsVoid,
                _ => false,
            };
            if (holds)
            {
                return true;
            }
        }

        return false;
    }

    private static IEnumerable<ServiceTask> JobTasks(ServiceRecord record) =>
        record.Tasks.Concat(record.Units.SelectMany(u => u.Tasks));
}
