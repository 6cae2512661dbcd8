using ServiceRules.Domain.Records;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;

namespace ServiceRules.Engine.Tests.Planning;

/// <summary>Applicability as its documentation reads, part by part, on the record itself.</summary>
internal static class PlainReading
{
    public static IEnumerable<string> Of(Rule rule, JobFrame frame)
    {
        var record = frame.Record;
        var when = rule.When;
        if (when.From > record.Date || when.Until < record.Date)
        {
            return [];
        }

        if (when.Place is not null && when.Place != record.Place)
        {
            return [];
        }

        if (when.Isolation is { } isolation && isolation != IsIsolated(frame))
        {
            return [];
        }

        if (when.Areas.Length > 0 && !when.Areas.Any(area => area == record.Machine.Area))
        {
            return [];
        }

        var units = frame.Units.Where(unit => Unit(when, unit)).ToList();
        if (rule.Scope == RuleScope.Unit)
        {
            return units
                .Where(unit => Tasks(when, unit.Tasks) || StillRead(when, [unit]))
                .Select(unit => $"unit/{unit.Work.Id}");
        }

        var tasks = record.Tasks.Concat(frame.Units.SelectMany(unit => unit.Tasks));
        return units.Count > 0 && (Tasks(when, tasks) || StillRead(when, frame.Units))
            ? [Whole(rule.Scope)]
            : [];
    }

    private static bool IsIsolated(JobFrame frame) =>
        frame.Record.Place == WorkPlace.OnMachine
        || frame.Procedure?.Sources.Any(source => source.Isolator is not null) == true;

    private static string Whole(RuleScope scope) =>
        scope switch
        {
            RuleScope.Set => "set",
            RuleScope.Programme => "programme",
            _ => "job",
        };

    private static bool StillRead(Applicability when, IEnumerable<UnitFrame> units) =>
        units.Any(unit =>
            when.OrRead.Any(quantity =>
                unit.Of(quantity) is { } known && known.Left.Any(place => place.State != KnownState.Stale)
            )
        );

    private static bool Tasks(Applicability when, IEnumerable<ServiceTask> tasks) =>
        when.Tasks.Length == 0 || when.Tasks.Intersect(tasks).Any();

    private static bool Unit(Applicability when, UnitFrame unit)
    {
        var answers = new List<bool>();
        if (when.Sheets.Length > 0)
        {
            answers.Add(when.Sheets.Any(sheet => sheet == unit.Work.Sheet));
        }

        if (when.Bedknife is not null)
        {
            answers.Add(unit.Sheet.Bedknife == when.Bedknife);
        }

        if (when.School is not null)
        {
            answers.Add(unit.School == when.School);
        }

        if (when.AnyTurned.Length > 0)
        {
            answers.Add(
                unit.Work.Entries.Any(entry =>
                    entry is Adjustment adjustment && when.AnyTurned.Any(kind => kind == adjustment.Adjuster)
                )
            );
        }

        if (when.AnyRead.Length > 0)
        {
            answers.Add(
                unit.Work.Entries.Any(entry =>
                    entry is Reading reading && when.AnyRead.Any(quantity => quantity == reading.Quantity)
                )
            );
        }

        if (when.AnyReadAlong.Length > 0)
        {
            answers.Add(
                when.AnyReadAlong.Any(quantity =>
                    unit.Work.Entries.OfType<Reading>()
                        .Where(reading => reading.Quantity == quantity)
                        .Where(reading => reading.Observed is Observation.Measured or Observation.FeelerTest)
                        .Where(reading => reading.Station is not null)
                        .Select(reading => reading.Station)
                        .Distinct()
                        .Count() > 1
                )
            );
        }

        if (when.Ground is not null)
        {
            answers.Add(when.Ground == unit.Work.Entries.Any(entry => entry is Grinding));
        }

        if (when.SheetStates is not null)
        {
            answers.Add(unit.Sheet.Quantities.Any(limit => limit.Quantity == when.SheetStates));
        }

        answers.AddRange(when.Attachments.Select(wanted => unit.Work.Attachments.Any(a => a == wanted)));
        return answers.TrueForAll(answer => answer);
    }
}
