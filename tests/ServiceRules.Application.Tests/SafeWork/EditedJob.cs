using System.Text;
using System.Text.Json.Nodes;
using ServiceRules.Application.Library;
using ServiceRules.Application.Tests.RuleCases;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Engine;
using ServiceRules.Formats.Records;
using ServiceRules.Formats.Registers;
using ServiceRules.Rules.Model;
using ServiceRules.TestKit;

namespace ServiceRules.Application.Tests.SafeWork;

/// <summary>A whole job of the fixtures with entries added, taken out or changed, judged by the shipped rules as <c>check</c> does.</summary>
internal sealed class EditedJob
{
    private const string Day = "2026-04-13";

    private static readonly LoadedRules Rules = RuleFolder.Load(ReferenceFiles.InRepository("rules"));

    private readonly JsonObject record;
    private readonly JsonObject context;

    private EditedJob(string fixture)
    {
        record = FixtureParts.Record(fixture);
        context = JsonNode.Parse(FixtureParts.Context(fixture))!.AsObject();
    }

    public static RuleBook Book => Rules.Book;

    private JsonArray Timeline => record["timeline"]!.AsArray();

    public static EditedJob Of(string fixture) => new(fixture);

    /// <summary>Adds an entry: its kind, its time of day, by whom, and what else it says.</summary>
    public EditedJob With(string kind, string at, string by, string more = "{}")
    {
        JsonObject entry = JsonNode.Parse(more)!.AsObject();
        entry["event"] = kind;
        entry["at"] = At(at);
        entry["by"] = by;
        Timeline.Add(entry);
        return this;
    }

    /// <summary>Takes out every entry of some kinds.</summary>
    public EditedJob Without(params string[] kinds) =>
        Without(entry => kinds.Contains(entry["event"]!.GetValue<string>()));

    public EditedJob Without(Func<JsonObject, bool> which)
    {
        foreach (JsonNode? entry in Timeline.Where(entry => which(entry!.AsObject())).ToList())
        {
            Timeline.Remove(entry);
        }

        return this;
    }

    /// <summary>Moves every entry of a kind (by one person) to another time.</summary>
    public EditedJob Move(string kind, string to, string? by = null) =>
        Change(
            entry =>
                entry["event"]!.GetValue<string>() == kind
                && (by is null || entry["by"]!.GetValue<string>() == by),
            entry => entry["at"] = At(to)
        );

    /// <summary>Puts the entries in the order of their times.</summary>
    public EditedJob InOrderOfTime()
    {
        var all = Timeline
            .Select(entry => entry!.DeepClone().AsObject())
            .OrderBy(entry => entry["at"]!.GetValue<string>(), StringComparer.Ordinal)
            .ToList();
        Timeline.Clear();
        all.ForEach(entry => Timeline.Add(entry));
        return this;
    }

    /// <summary>Notes every time to the minute; entries stand in the order of their times.</summary>
    public EditedJob ToTheMinute()
    {
        var all = Timeline
            .Select(entry => entry!.DeepClone().AsObject())
            .OrderBy(entry => entry["at"]!.GetValue<string>(), StringComparer.Ordinal)
            .ToList();
        Timeline.Clear();
        foreach (var entry in all)
        {
            string at = entry["at"]!.GetValue<string>();
            entry["at"] = $"{at[..17]}00{at[19..]}";
            Timeline.Add(entry);
        }

        return this;
    }

    public EditedJob Change(Func<JsonObject, bool> which, Action<JsonObject> how)
    {
        foreach (JsonNode? entry in Timeline.Where(entry => which(entry!.AsObject())).ToList())
        {
            how(entry!.AsObject());
        }

        return this;
    }

    /// <summary>Sets a member of the record.</summary>
    public EditedJob Record(string member, JsonNode? value)
    {
        record[member] = value;
        return this;
    }

    /// <summary>Sets a member of the registers.</summary>
    public EditedJob Register(string member, string value)
    {
        context[member] = JsonNode.Parse(value);
        return this;
    }

    /// <summary>Names somebody in the record, with their part in the job.</summary>
    public EditedJob Person(string id, string role)
    {
        record["people"]!.AsArray().Add(new JsonObject { ["id"] = id, ["role"] = role });
        return this;
    }

    /// <summary>Gives a unit a place on the machine.</summary>
    public EditedJob Position(int unit, int position)
    {
        record["units"]![unit]!["position"] = position;
        return this;
    }

    /// <summary>The job goes on.</summary>
    public EditedJob Open()
    {
        record.Remove("signOff");
        return this;
    }

    /// <summary>Adds an entry to a list of the registers.</summary>
    public EditedJob Registered(string list, string value)
    {
        context[list]!.AsArray().Add(JsonNode.Parse(value));
        return this;
    }

    /// <summary>Adds an entry to the bench log of a unit.</summary>
    public EditedJob Unit(int unit, string entry)
    {
        record["units"]![unit]!["entries"]!.AsArray().Add(JsonNode.Parse(entry));
        return this;
    }

    /// <summary>Takes the readings of a quantity out of every bench log.</summary>
    public EditedJob WithoutReadings(string quantity)
    {
        foreach (JsonNode? unit in record["units"]!.AsArray())
        {
            JsonArray entries = unit!["entries"]!.AsArray();
            foreach (JsonNode? entry in entries.Where(entry => (string?)entry!["read"] == quantity).ToList())
            {
                entries.Remove(entry);
            }
        }

        return this;
    }

    /// <summary>Adds the procedures of another fixture, and has those that are there count for a machine as well.</summary>
    public EditedJob ProceduresOf(string fixture, string machine)
    {
        JsonArray there = context["procedures"]!.AsArray();
        foreach (JsonNode? procedure in there)
        {
            procedure!["machines"]!.AsArray().Add(machine);
        }

        foreach (JsonNode? other in JsonNode.Parse(FixtureParts.Context(fixture))!["procedures"]!.AsArray())
        {
            there.Add(other!.DeepClone());
        }

        return this;
    }

    /// <summary>Changes each procedure of its site.</summary>
    public EditedJob Procedures(Action<JsonObject> how)
    {
        foreach (JsonNode? procedure in context["procedures"]!.AsArray())
        {
            how(procedure!.AsObject());
        }

        return this;
    }

    /// <summary>Changes a person of its site's register.</summary>
    public EditedJob Person(string id, Action<JsonObject> how)
    {
        how(context["people"]!.AsArray().Single(one => (string?)one!["id"] == id)!.AsObject());
        return this;
    }

    public ServiceRecord Read()
    {
        Assert.True(
            RecordFormat
                .Current.Read(Encoding.UTF8.GetBytes(record.ToJsonString()))
                .TryGet(out ServiceRecord? read, out var problems),
            problems is null ? "" : string.Join("; ", problems)
        );
        return read;
    }

    public AssessmentContext Context()
    {
        Assert.True(
            ContextFormat
                .Current.Read(Encoding.UTF8.GetBytes(context.ToJsonString()))
                .TryGet(out AssessmentContext? read, out var problems),
            problems is null ? "" : string.Join("; ", problems)
        );
        return read;
    }

    public Assessment Judge() => new RuleEngine().Assess(Read(), Context(), Rules.Book, new("", "", ""));

    /// <summary>Nothing of it is held: it may go out.</summary>
    public void MayGoOut()
    {
        Assessment found = Judge();
        Assert.Equal(
            [],
            found
                .Findings.Where(one => one.Verdict is Verdict.NotMet or Verdict.Unproven)
                .Where(one => one.Effect is Effect.Hold or Effect.Stop)
                .Select(one => $"{one.Rule}: {one.Statement}")
        );
        Assert.Equal(Disposition.Release, found.Job.Disposition);
    }

    /// <summary>One rule holds or stops it, with this in its statement.</summary>
    public void IsKept(Disposition by, string rule, string statement)
    {
        Assessment found = Judge();
        Assert.Equal(by, found.Job.Disposition);
        Finding finding = Assert.Single(
            found.Findings,
            one => one.Rule == rule && one.Verdict is (Verdict.NotMet or Verdict.Unproven)
        );
        Assert.Contains(statement, finding.Statement, StringComparison.Ordinal);
    }

    private static string At(string time) => $"{Day}T{(time.Length == 5 ? time + ":00" : time)}+01:00";
}
