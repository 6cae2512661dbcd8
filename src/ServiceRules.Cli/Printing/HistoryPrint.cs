using System.Globalization;
using ServiceRules.Application.History;
using ServiceRules.Reporting.Reports.Words;
using Spectre.Console;

namespace ServiceRules.Cli.Printing;

/// <summary>A history for the shop lead: what needs somebody, soonest first; then each unit; then gauges and the shop.</summary>
internal sealed class HistoryPrint(IAnsiConsole screen, HistoryTold told, bool isWhole)
{
    public void Print()
    {
        Heading();
        Actions();
        foreach (var machine in told.Units.GroupBy(unit => (unit.Site, unit.Machine)))
        {
            Machine([.. machine]);
        }

        if (isWhole)
        {
            Offsets();
            Gauges();
            Processes();
        }

        screen.WriteLine();
        screen.TextLine(
            "Marked (derived): our own geometry or statistics on your readings. (common practice): no source found. (illustrative): a figure for you to settle."
        );
        screen.TextLine("The unit's own manual, local codes and licensed practice come before this answer.");
        FilesPrint.Write(screen, told.Files);
    }

    private void Heading()
    {
        var machines = told.Units.Select(unit => (unit.Site, unit.Machine)).Distinct().Count();
        var sites = told.Units.Select(unit => unit.Site).Distinct().Count();
        screen.MarkedLine(
            $"[bold]{ReportWords.Counted(told.Units.Length, "unit", "units")}[/] on {ReportWords.Counted(machines, "machine", "machines")}{(sites > 1 ? $" of {sites} sites" : "")}, {HistoryWords.Day(told.From)} to {HistoryWords.Day(told.Through)}. Days are reckoned from the last of these, at the hours a week that each machine has run."
        );
    }

    private void Actions()
    {
        screen.WriteLine();
        if (told.Actions.IsEmpty)
        {
            screen.MarkedLine($"[bold]Needs action:[/] nothing within two years.");
            return;
        }

        screen.MarkedLine($"[bold]Needs action[/]");
        // Units of one machine that need the same on the same day are one line.
        foreach (
            var alike in told.Actions.GroupBy(action =>
                (action.Due, action.Unit?.Site, action.Unit?.Machine, What: ActionWords.Of(action))
            )
        )
        {
            var (when, style) = alike.Key.Due is { } due ? (HistoryWords.Day(due), "yellow") : ("now", "red");
            var units = ReportWords.Listed([
                // One unit may be taken up too fast by both measures.
                .. alike.Select(action => action.Unit?.Unit.Text).OfType<string>().Distinct(),
            ]);
            var who = alike.Key.Machine is { } machine ? $"{units} ({machine})  " : "";
            screen.MarkedLine($"  [bold {style}]{when, -10}[/]  {who}{alike.Key.What}");
        }
    }

    private void Machine(List<UnitOutlook> units)
    {
        screen.WriteLine();
        var area = units[0].Area is { } name ? $", {name}" : "";
        var weekly = units.Select(unit => unit.PerWeek).FirstOrDefault(hours => hours is not null);
        var use = weekly is { } hours
            ? string.Create(CultureInfo.InvariantCulture, $", {hours.Hours:0.#} h a week")
            : "";
        screen.MarkedLine($"[bold]Machine {units[0].Machine}[/]{area}{use}");
        foreach (var unit in units)
        {
            var position = unit.Position is { } at ? $", position {at}" : "";
            screen.MarkedLine(
                $"  [bold]{unit.Unit}[/]{position} ({unit.Sheet}), reel {unit.Reel ?? "not named"}, bedknife {unit.Bedknife ?? "not named"}, {ReportWords.Counted(unit.Jobs, "job", "jobs")}"
            );
            foreach (var line in UnitWords.Of(unit))
            {
                screen.TextLine("      " + line);
            }
        }
    }

    private void Offsets()
    {
        if (told.Offsets.IsEmpty)
        {
            return;
        }

        screen.WriteLine();
        screen.MarkedLine($"[bold]Height on the turf against the bench (derived)[/]");
        foreach (var offset in told.Offsets)
        {
            screen.TextLine("  " + HistoryWords.Of(offset));
        }
    }

    private void Gauges()
    {
        screen.WriteLine();
        screen.MarkedLine($"[bold]Gauges[/]");
        foreach (var gauge in told.Gauges)
        {
            screen.TextLine("  " + GaugeWords.Of(gauge));
        }

        foreach (var pair in told.GaugePairs)
        {
            screen.TextLine("  " + GaugeWords.Of(pair));
        }

        if (told.Gauges.IsEmpty && told.GaugePairs.IsEmpty)
        {
            screen.TextLine("  No zero check, and nothing read by two gauges, is in these records.");
        }
    }

    private void Processes()
    {
        if (told.Processes.IsEmpty)
        {
            return;
        }

        screen.WriteLine();
        screen.MarkedLine($"[bold]What the shop leaves[/]");
        foreach (var process in told.Processes)
        {
            screen.TextLine("  " + ProcessWords.Of(process));
        }
    }
}
