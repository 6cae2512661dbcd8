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

        var rules = site.Rules.Now();
        var begun = new BeginRecord(rules.Book, rules.Site, rules.Judging).Begin(
            new JobToBegin(machine, task, procedure, person, local),
            Earlier(machineId, EarlierRecords),
            Earlier(null, RecentRecords)
        );
        return (RecordFields.Written(begun), null);
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

    private static string WordOf(ServiceTask task) =>
        JsonNamingPolicy.KebabCaseLower.ConvertName(task.ToString());
}
