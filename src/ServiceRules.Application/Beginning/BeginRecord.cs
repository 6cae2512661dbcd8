using System.Globalization;
using System.Text.Json.Nodes;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Library;
using ServiceRules.Domain.Site;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Beginning;

/// <summary>
/// The record of a job before anything of it is known but where, what for and by which procedure. What is to be filled in holds a
/// <see cref="Mark"/>, which no record that is read may hold.
/// </summary>
public sealed class BeginRecord(RuleBook book, SiteRegisters site, AssessRecord judging)
{
    /// <summary>Marks what is to be filled in.</summary>
    public const string Mark = "?";

    private const int MachineLength = 40;

    /// <param name="job">The job.</param>
    /// <param name="earlier">Records of the machine, the newest first: its units are taken from them.</param>
    /// <param name="recent">Records of the site, the newest first: gauges are taken from them, those of the machine before others.</param>
    public JsonObject Begin(
        JobToBegin job,
        IReadOnlyList<JsonObject> earlier,
        IReadOnlyList<JsonObject> recent
    )
    {
        ArgumentNullException.ThrowIfNull(job);
        ArgumentNullException.ThrowIfNull(earlier);
        ArgumentNullException.ThrowIfNull(recent);
        var person = job.Person ?? Mark;
        var day = DateOnly.FromDateTime(job.At.DateTime);
        var gauges = new BegunGauges(site, [.. earlier, .. recent], day);
        var record = new JsonObject
        {
            ["format"] = "service-record/1",
            ["id"] = string.Create(
                CultureInfo.InvariantCulture,
                $"{Within(job.Machine.Id.Text)}-{job.At:yyyyMMdd-HHmmss}-{job.Draw}"
            ),
            ["date"] = day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
            ["place"] = Words.Of(job.Procedure.Place),
            ["machine"] = Machine(job.Machine),
            ["tasks"] = new JsonArray(Words.Of(job.Task)),
            ["people"] = new JsonArray(new JsonObject { ["id"] = person, ["role"] = "performs" }),
            ["units"] = Units(job.Machine, earlier),
        };
        BegunReadings.Put(record, book, judging, gauges);
        record["instruments"] = gauges.Taken();
        record["timeline"] = BegunSteps.Of(job, site, person);
        record["signOff"] = new JsonObject { ["by"] = person, ["at"] = BegunSteps.Time(job.At) };
        return record;
    }

    // An identity has 64 characters at most.
    private static string Within(string machine) =>
        machine.Length <= MachineLength ? machine : machine[..MachineLength];

    private static JsonObject Machine(RegisteredMachine machine)
    {
        var told = new JsonObject { ["id"] = machine.Id.Text };
        if (!machine.Areas.IsEmpty)
        {
            told["area"] = machine.Areas.Length == 1 ? machine.Areas[0] : Mark;
        }

        told["hours"] = Mark + " h";
        return told;
    }

    // The register counts units and does not name them.
    private JsonArray Units(RegisteredMachine machine, IReadOnlyList<JsonObject> earlier)
    {
        string[] kept = ["id", "reel", "bedknife", "position", "sheet", "attachments"];
        var known = earlier
            .SelectMany(record => (record["units"] as JsonArray ?? []).OfType<JsonObject>())
            .DistinctBy(unit => unit["id"]?.GetValue<string>())
            .OrderBy(unit => unit["position"]?.GetValue<int>() ?? int.MaxValue)
            .ThenBy(unit => unit["id"]?.GetValue<string>(), StringComparer.Ordinal)
            .Select(unit => new JsonObject(
                kept.Where(unit.ContainsKey)
                    .Select(name => KeyValuePair.Create(name, unit[name]?.DeepClone()))
            ))
            .ToArray<JsonNode>();
        return known.Length > 0
            ? new JsonArray(known)
            : new JsonArray([
                .. Enumerable
                    .Range(1, machine.Units ?? 1)
                    .Select(position => new JsonObject
                    {
                        ["id"] = Mark,
                        ["position"] = position,
                        ["sheet"] = book.Sheets.Length == 1 ? book.Sheets[0].Id.Text : Mark,
                    }),
            ]);
    }
}
