using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using ServiceRules.Application.Library;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Engine;
using ServiceRules.Formats.Records;
using ServiceRules.Formats.Registers;
using ServiceRules.TestKit;

namespace ServiceRules.Application.Tests.RuleCases;

/// <summary>
/// A reel lapped, or run for a test, by a crew that is as the record says; and the same by one that is not: the first may go
/// out, the second never does.
/// </summary>
public sealed class RunCrewTests
{
    private const int Measures = 13;
    private const int Started = 20;
    private const int Done = 21;
    private const int Ended = 22;
    private const string Second = "second-person-at-stop-control";

    private static readonly LoadedRules Rules = RuleFolder.Load(ReferenceFiles.InRepository("rules"));
    private static readonly RuleEngine Engine = new();

    [Theory]
    [InlineData("", true)]
    [InlineData("helper starts and ends it", false)]
    [InlineData("helper does the task", false)]
    [InlineData("helper ends it", false)]
    [InlineData("helper looks round meanwhile", false)]
    public void Lapping_OneAloneAtTheControls_GoesOutOnlySo(string what, bool expected)
    {
        var (record, context) = Lap("leads");
        foreach (int at in Places(what))
        {
            record["timeline"]![at]!["by"] = "fitter-7";
        }

        if (what.Contains("looks round", StringComparison.Ordinal))
        {
            Add(record, "area_inspected", "08:33:00", "fitter-7");
        }

        Assert.Equal(expected, IsReleased(record, context));
    }

    [Theory]
    [InlineData("assists", "fitter-7", "", true)]
    [InlineData("leads", "fitter-7", "", true)]
    [InlineData("assists", null, "", true)]
    [InlineData("leads", null, "", false)]
    [InlineData("assists", null, "fitter-7 at the stop of the tractor", true)]
    [InlineData("leads", null, "fitter-7 at the stop of the tractor, no gloves", true)]
    [InlineData("leads", null, "fitter-7 not at the stop", false)]
    [InlineData("leads", "tech-01", "", false)]
    [InlineData("leads", "fitter-99", "", false)]
    [InlineData("", null, "", false)]
    public void Lapping_SecondPersonAtTheStop_IsARealOne(
        string role,
        string? named,
        string words,
        bool expected
    )
    {
        var (record, context) = Lap(role, Second);
        if (named is not null)
        {
            record["timeline"]![Measures]!["others"] = new JsonArray(named);
        }

        record["timeline"]![Measures]!["method"] = words.Length == 0 ? null : words;
        if (words.Length == 0)
        {
            record["timeline"]![Measures]!.AsObject().Remove("method");
        }

        Assert.Equal(expected, IsReleased(record, context));
    }

    [Theory]
    [InlineData("reel_wedged", "08:33:00", false)]
    [InlineData("area_inspected", "08:33:00", false)]
    [InlineData("area_inspected", "08:39:00", true)]
    public void Lapping_SecondPersonAtTheStop_StaysThere(string act, string at, bool expected)
    {
        var (record, context) = Lap("assists", Second);
        record["timeline"]![Measures]!["others"] = new JsonArray("fitter-7");
        Add(record, act, at, "fitter-7");

        Assert.Equal(expected, IsReleased(record, context));
    }

    /// <summary>Named at the stop, and hands in all the same, with no lock of their own.</summary>
    [Fact]
    public void Lapping_SecondPersonWithHandsInBefore_HoldsTheirOwnLock()
    {
        var (record, context) = Lap("assists", Second);
        record["timeline"]![Measures]!["others"] = new JsonArray("fitter-7");
        Add(record, "work_started", "08:12:00", "fitter-7");
        Add(record, "work_stopped", "08:20:00", "fitter-7");

        Assert.False(IsReleased(record, context));
    }

    [Theory]
    [InlineData(true, true)]
    [InlineData(false, false)]
    public void Lapping_MeasuresByAnother_CountWhereTheyAreAuthorised(bool isAuthorised, bool expected)
    {
        var (record, context) = Lap("leads", "long-handled-brush");
        context["people"]!.AsArray()[^1]!["authorised"] = isAuthorised;
        record["timeline"]![Measures]!["by"] = "fitter-7";

        Assert.Equal(expected, IsReleased(record, context));
    }

    /// <summary>The lapping of the fixture, with one person more, and other measures asked for and said.</summary>
    private static (JsonObject Record, JsonObject Context) Lap(string role, params string[] measures)
    {
        var record = FixtureParts.Record("lap");
        var context = JsonNode.Parse(FixtureParts.Context("lap"))!.AsObject();
        var known = context["people"]![1]!.DeepClone();
        known["id"] = "fitter-7";
        context["people"]!.AsArray().Add(known);
        if (role.Length > 0)
        {
            record["people"]!.AsArray().Add(new JsonObject { ["id"] = "fitter-7", ["role"] = role });
        }

        if (measures.Length > 0)
        {
            string[] all = [.. measures, "no-gloves-near-turning-reel"];
            context["procedures"]![0]!["energisedTasks"]![0]!["measures"] = List(all);
            record["timeline"]![Measures]!["measures"] = List(all);
        }

        return (record, context);
    }

    private static JsonArray List(string[] all) => [.. all.Select(one => (JsonNode)one)];

    private static int[] Places(string what) =>
        what switch
        {
            "helper starts and ends it" => [Started, Ended],
            "helper does the task" => [Done],
            "helper ends it" => [Ended],
            _ => [],
        };

    private static void Add(JsonObject record, string what, string at, string by) =>
        record["timeline"]!
            .AsArray()
            .Add(
                new JsonObject
                {
                    ["event"] = what,
                    ["at"] = string.Create(CultureInfo.InvariantCulture, $"2026-04-13T{at}+01:00"),
                    ["by"] = by,
                }
            );

    private static bool IsReleased(JsonObject json, JsonObject registers)
    {
        // A record that is not even read never goes out.
        if (
            !RecordFormat
                .Current.Read(Encoding.UTF8.GetBytes(json.ToJsonString()))
                .TryGet(out ServiceRecord? record, out _)
        )
        {
            return false;
        }

        Assert.True(
            ContextFormat
                .Current.Read(Encoding.UTF8.GetBytes(registers.ToJsonString()))
                .TryGet(out AssessmentContext? context, out _)
        );
        Assessment assessment = Engine.Assess(record, context!, Rules.Book, new("", "", ""));
        return assessment.Job.Disposition is Disposition.Release
            && assessment.Units.All(unit => unit.Outcome.Disposition is Disposition.Release);
    }
}
