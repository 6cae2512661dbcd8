using System.Security.Cryptography;
using System.Text.Json;
using System.Text.Json.Nodes;
using ServiceRules.Application.Beginning;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Rows;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Host.Problems;
using ServiceRules.Host.Sites;

namespace ServiceRules.Host.Pages.Bench;

/// <summary>Where a job is begun: with a machine of the register, a task and a written procedure.</summary>
internal sealed class BeginDesk(OpenLedger ledger, ServedSite site, DateTimeOffset now)
{
    // Enough visits to have seen each unit and each gauge of a machine.
    private const int EarlierRecords = 20;

    // Enough jobs to have seen each gauge of the shop.
    private const int RecentRecords = 100;

    // Of two that are begun in one second, also at two screens, each is another job.
    private const int DrawnDigits = 4;

    private const string OnMachine = "on-machine";

    private readonly DateTimeOffset local = now.ToOffset(
        TimeSpan.FromMinutes(site.Registers.Zone.OffsetMinutesAt(Moment.From(now)))
    );

    private DateOnly Today => DateOnly.FromDateTime(local.DateTime);

    public BeginChoice Choices(bool areSeveral, string? person) =>
        new(
            areSeveral ? site.Name : null,
            [
                .. site.Registers.Machines.Select(machine => new NamedChoice(
                    machine.Id.Text,
                    machine.Areas.IsEmpty
                        ? $"{machine.Id.Text}: {machine.Title}"
                        : $"{machine.Id.Text}: {machine.Title} ({string.Join(", ", machine.Areas)})"
                )),
            ],
            [
                .. Enum.GetValues<ServiceTask>()
                    .Select(task => new NamedChoice(WordOf(task), WordOf(task).Replace('-', ' '))),
            ],
            [
                .. site
                    .Registers.Procedures.Where(IsInForce)
                    .Select(procedure => new NamedChoice(
                        procedure.Id.Text,
                        $"{procedure.Id.Text}: {procedure.Title}"
                    )),
            ],
            person is null
                ? [.. site.Registers.People.Where(one => one.On(Today).Authorised).Select(one => one.Id.Text)]
                : [person]
        );

    /// <summary>The record to fill in; else what is wrong with what was chosen.</summary>
    public (string? Text, string? Wrong) Begin(
        string machineId,
        string taskWord,
        string procedureId,
        string? person
    )
    {
        if (site.Registers.Machines.FirstOrDefault(one => one.Id.Text == machineId) is not { } machine)
        {
            return (null, $"There is no machine `{Shortened.To(machineId, 64)}`; accepted: one of the list.");
        }

        if (Enum.GetValues<ServiceTask>().Where(one => WordOf(one) == taskWord).ToList() is not [var task])
        {
            return (null, $"There is no task `{Shortened.To(taskWord, 64)}`; accepted: one of the list.");
        }

        var able = site
            .Registers.Procedures.Where(one => IsInForce(one) && one.Machines.Contains(machine.Id))
            .OrderBy(one => one.Place)
            .ToList();
        var procedure =
            procedureId.Length == 0
                ? able.FirstOrDefault()
                : able.FirstOrDefault(one => one.Id.Text == procedureId);
        if (procedure is null)
        {
            return (
                null,
                able.Count == 0
                    ? $"No written procedure covers {machine.Id.Text} today; one is needed before hands go in."
                    : $"`{Shortened.To(procedureId, 64)}` does not cover {machine.Id.Text} today; accepted: "
                        + string.Join(", ", able.Select(one => one.Id.Text))
                        + "."
            );
        }

        if (person is not null && site.Registers.People.All(one => one.Id.Text != person))
        {
            return (null, $"`{Shortened.To(person, 64)}` is not in the register; accepted: one of the list.");
        }

        return (RecordFields.Written(Begun(machine, task, procedure, person)), null);
    }

    /// <summary>An open job as it is filed, with what its task and its procedure still ask for behind it.</summary>
    public string Continue(ReadOnlyMemory<byte> filed)
    {
        var record = JsonNode.Parse(filed.Span)!.AsObject();
        return RecordFields.Written(
            Asked(record, null) is { } asked ? OpenJob.Continued(record, asked) : record
        );
    }

    /// <summary>
    /// A record of which somebody named units by hand, with the readings and the gauges that its task asks for at them; the same record
    /// where it cannot be told what these are.
    /// </summary>
    public JsonObject WithReadings(JsonObject record)
    {
        if (!CanBeAsked(record))
        {
            return record;
        }

        var units = record["units"]!.DeepClone().AsArray();
        foreach (var unit in units)
        {
            unit!.AsObject().Remove("entries");
        }

        return Asked(record, new JsonObject { ["units"] = units }) is { } asked
            ? OpenJob.WithReadings(record, asked)
            : record;
    }

    // Anyone can have written anything into it.
    private static bool CanBeAsked(JsonObject record) =>
        record["machine"] is JsonObject
        && record["tasks"] is JsonArray { Count: > 0 }
        && AreObjects(record["timeline"] ?? new JsonArray())
        && AreObjects(record["people"] ?? new JsonArray())
        && AreObjects(record["units"])
        && record["units"]!
            .AsArray()
            .All(unit =>
                IsText(unit!["id"])
                && IsText(unit["sheet"])
                && (
                    unit["position"] is null
                    || (unit["position"] is JsonValue position && position.TryGetValue<int>(out _))
                )
            );

    private static bool AreObjects(JsonNode? node) =>
        node is JsonArray items && items.All(item => item is JsonObject);

    private static bool IsText(JsonNode? node) => node is JsonValue value && value.TryGetValue<string>(out _);

    // What its task and its procedure ask for; null where the register no longer has its machine, or no procedure covers that.
    private JsonObject? Asked(JsonObject record, JsonObject? units)
    {
        var machine = site.Registers.Machines.FirstOrDefault(one =>
            one.Id.Text == record["machine"]?["id"]?.ToString()
        );
        var task = Enum.GetValues<ServiceTask>()
            .Where(one => WordOf(one) == record["tasks"]?[0]?.ToString())
            .Cast<ServiceTask?>()
            .FirstOrDefault();
        // Which procedure it went by stands at the step that goes through it.
        var gone = (record["timeline"] as JsonArray ?? [])
            .Select(step => step?["procedure"]?.ToString())
            .FirstOrDefault(id => id is not null);
        var person = (record["people"] as JsonArray ?? [])
            .FirstOrDefault(one => one?["role"]?.ToString() == "performs")
            ?["id"]?.ToString();
        var procedure = machine is null
            ? null
            : site
                .Registers.Procedures.Where(one => IsInForce(one) && one.Machines.Contains(machine.Id))
                .OrderByDescending(one => one.Id.Text == gone)
                .ThenByDescending(one => WordOf(one.Place) == (record["place"]?.ToString() ?? OnMachine))
                .FirstOrDefault();
        return machine is null || task is not { } known || procedure is null
            ? null
            : Begun(machine, known, procedure, person, units);
    }

    private JsonObject Begun(
        RegisteredMachine machine,
        ServiceTask task,
        Procedure procedure,
        string? person,
        JsonObject? units = null
    )
    {
        var rules = site.Rules.Now();
        return new BeginRecord(rules.Book, rules.Site, rules.Judging).Begin(
            new JobToBegin(
                machine,
                task,
                procedure,
                person,
                local,
                RandomNumberGenerator.GetHexString(DrawnDigits, lowercase: true)
            ),
            [.. units is null ? [] : new[] { units }, .. Earlier(machine.Id.Text, EarlierRecords)],
            Earlier(null, RecentRecords)
        );
    }

    private bool IsInForce(Procedure procedure) =>
        (procedure.From is not { } from || from <= Today)
        && (procedure.Until is not { } until || Today <= until);

    // Of these but the units and the gauges are shown, which are the machine's and the shop's, and nobody's.
    private List<JsonObject> Earlier(string? machine, int most)
    {
        var page = ledger.Rows.Records(
            new RecordFilter { Site = site.Name, Machine = machine },
            new RowPaging { Most = most }
        );
        return ledger.Read(log =>
            page.Rows.Select(row => log.Sound(row.RecordHash) is { } kept ? JsonNode.Parse(kept.Span) : null)
                .OfType<JsonObject>()
                .ToList()
        );
    }

    private static string WordOf(Enum word) => JsonNamingPolicy.KebabCaseLower.ConvertName(word.ToString());
}
