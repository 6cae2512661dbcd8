using ServiceRules.Application.Library;
using ServiceRules.Domain.Records;
using ServiceRules.Rules.Checking;

namespace ServiceRules.Application.Authoring;

/// <summary>What a kind of unit needs besides its limit sheet before a job on it can go out.</summary>
public static class UnitKindSteps
{
    /// <param name="rules">The folder with the sheet in it.</param>
    /// <param name="sheet">Identity text of the sheet.</param>
    /// <param name="machine">The machine that carries such units, if it is known.</param>
    /// <param name="today">The day.</param>
    public static IEnumerable<string> Of(LoadedRules rules, string sheet, string? machine, DateOnly today)
    {
        ArgumentNullException.ThrowIfNull(rules);
        var orders = rules.Library.Orders.Where(one => !(one.Value.Until < today)).ToList();
        var schools = rules
            .Library.Sheets.FirstOrDefault(one => one.Value.Id.Text == sheet)
            ?.Value.Of(MeasuredQuantity.Clearance)
            ?.Schools;
        if (
            schools is { IsEmpty: false }
            && !orders.Any(one => one.Value.Schools.Any(choice => choice.Sheet == sheet))
        )
        {
            yield return FormattableString.Invariant(
                $"next: say how such units are set: servicerules rules order ID --by PERSON --from {today:yyyy-MM-dd} --school {sheet}={FileWord.Of(schools.Value[0].School)}"
            );
        }

        var areas = orders
            .SelectMany(one => one.Value.Targets)
            .Where(target => target.Sheet is null || target.Sheet == sheet)
            .Select(target => target.Area)
            .Distinct(StringComparer.Ordinal)
            .Order(StringComparer.Ordinal)
            .ToList();
        yield return areas.Count == 0
            ? "next: no setting order gives a height to any area from today on: servicerules rules order ID --by PERSON --from DAY --height AREA=LENGTH"
            : $"next: where such units mow, an order gives the height: there are {string.Join(", ", areas)}; for another area: servicerules rules order ID --by PERSON --from DAY --height AREA=LENGTH --new-area AREA";
        foreach (var step in Machine(rules, machine))
        {
            yield return step;
        }

        yield return "next: servicerules rules check, and servicerules check on a record of such a unit";
    }

    private static IEnumerable<string> Machine(LoadedRules rules, string? machine)
    {
        var registers = rules.Library.Machines.Select(one => one.File).FirstOrDefault() ?? "registers.json";
        var procedures = rules.Library.Procedures;
        var known = rules.Library.Machines.Where(one => one.Value.Id.Text == machine).ToList();
        var covering = procedures
            .Where(one => machine is not null && one.Value.Machines.Any(named => named.Text == machine))
            .Select(one => one.File)
            .ToList();
        if (known.Count == 0)
        {
            yield return $"next: the machine {machine ?? "that carries them"} has to stand in {registers} under `machines`, with every source of energy it has";
        }

        if (covering.Count == 0)
        {
            yield return $"next: a written procedure has to name the machine {machine ?? "that carries them"} in its `machines`: one of {string.Join(", ", procedures.Where(one => one.Value.Until is null).Select(one => one.File))} if it covers every source of that machine, or a new one beside them";
        }
    }
}
