using System.Text;
using System.Text.Json.Nodes;
using ServiceRules.Domain.Site;
using ServiceRules.Formats.Json;
using ServiceRules.Formats.Packs;
using ServiceRules.Formats.Records;
using ServiceRules.Formats.Registers;
using ServiceRules.Rules.Model;

namespace ServiceRules.Formats.Tests.Documents;

/// <summary>What documents say of safe work: registers, certificates, whereabouts and citations.</summary>
public sealed class SafeWorkDocumentTests
{
    private const string Procedure = """
        {
          "format": "procedure/1", "id": "P-1", "title": "Ride-on machine", "machines": ["M-01"], "place": "on-machine",
          "sources": [
            { "id": "hydraulic", "title": "Hydraulics", "stored": true, "reaccumulates": true, "release": "levers", "proof": "gauge" },
            { "id": "spark", "title": "Spark", "stored": true, "release": "waited", "recheckMinutes": 30, "proof": "lead off" },
            { "id": "accumulator", "title": "Accumulator", "stored": true, "release": "valve", "recheckLimit": "10 bar", "proof": "gauge" }
          ],
          "controls": { "key": true, "parkingBrake": true, "loweringUnits": true, "reelDrive": true },
          "inspectedOn": "2026-02-10", "inspectionDue": "2027-02-10",
          "inspection": {
            "on": "2026-02-10", "inspector": "lead-01", "machine": "M-01", "people": ["tech-01"], "users": ["tech-01"],
            "tagLimitsReviewed": true,
            "findings": [{ "id": "F-1", "about": "tech-01", "raised": "2026-02-10", "due": "2026-03-01", "closed": "2026-02-20" }]
          },
          "controlStepsChanged": true,
          "energisedTasks": [
            {
              "task": "lap", "approvedBy": "officer-01", "measures": ["long-handled-brush", "guards-in-place"],
              "stop": "reel stopped and engine off", "adjusterControl": "remote lever", "longestMinutes": 15,
              "operators": ["tech-01"]
            }
          ]
        }
        """;

    private const string Context = """
        {
          "format": "assessment-context/1", "site": "here",
          "zone": { "name": "Europe/London", "dataVersion": "2025b", "firstOffsetMinutes": 0 },
          "people": [
            {
              "id": "ext-k", "authorised": true, "employer": "outside", "crew": "ext", "covers": ["engine_start"],
              "tagLimitsOn": "2025-01-20", "instructedOn": "2025-02-01"
            },
            { "id": "tech-01", "authorised": true, "covers": [] }
          ],
          "locks": [{ "id": "T-1", "use": "lockout only", "style": "red", "tag": true, "legend": "do not start" }],
          "machines": [{ "id": "M-01", "title": "Ride-on 1", "sources": [{ "id": "spark", "title": "Spark", "proof": "lead off" }] }],
          "lockStyle": "red",
          "removalException": { "id": "P-90", "trained": ["lead-01"] },
          "attendance": [{ "person": "tech-01", "from": "2026-04-13T07:00:00+01:00", "until": "2026-04-13T16:00:00+01:00" }],
          "otherThanTheSites": ["people", "procedures"],
          "elsewhere": [
            { "lock": "L-1", "machine": "M-02", "from": "2026-04-13T07:00:00+01:00" },
            { "person": "tech-01", "machine": "M-02", "from": "2026-04-13T07:00:00+01:00", "until": "2026-04-13T08:00:00+01:00" }
          ]
        }
        """;

    private const string Citations = """
        {
          "format": "citations/1",
          "citations": [
            {
              "rule": "affected-told", "rows": ["147.c.9.before"], "source": "29 CFR 1910.147, US OSHA, 2011",
              "clauses": ["(c)(9)"], "standing": "text-read"
            },
            { "rule": "key-kept", "source": "a text", "clauses": ["1", "2"], "standing": "from-memory" }
          ]
        }
        """;

    [Fact]
    public void Read_Procedure_KeepsCertificateAndEnergisedTasks()
    {
        var procedure = Read(SiteFormat.Procedure, Procedure);

        Assert.Equal(new DateOnly(2026, 2, 10), procedure.LastInspected);
        Assert.Equal(new DateOnly(2026, 2, 20), procedure.Inspection!.Findings[0].Closed);
        Assert.Equal("remote lever", procedure.EnergisedTasks[0].AdjusterControl);
        Assert.Equal("tech-01", Assert.Single(procedure.EnergisedTasks[0].Operators).Text);
        Assert.Equal("10 bar", procedure.Sources[2].RecheckLimit.ToString());
        Assert.All(procedure.Sources, source => Assert.True(source.Reaccumulates));
        ComesBack(SiteFormat.Procedure, Procedure);
    }

    [Theory]
    [InlineData("\"on\": \"2026-02-10\"", "\"on\": \"2026-02-11\"", "value.contradiction", "/inspection")]
    [InlineData(
        "\"closed\": \"2026-02-20\"",
        "\"closed\": \"2026-02-01\"",
        "value.contradiction",
        "/inspection/findings/0/closed"
    )]
    [InlineData(
        "\"inspectionDue\": \"2027-02-10\"",
        "\"inspectionDue\": \"2026-02-01\"",
        "value.contradiction",
        "/inspectionDue"
    )]
    [InlineData("\"10 bar\"", "\"10 m\"", "text.pattern", "/sources/2/recheckLimit")]
    [InlineData("\"stored\": true, \"release\": \"valve\", ", "", "value.contradiction", "/sources/2")]
    [InlineData(", \"guards-in-place\"", ", \"prayers\"", "value.choice", "/energisedTasks/0/measures/1")]
    public void Read_ProcedureWithOneThingWrong_IsToldWhereItStands(
        string right,
        string wrong,
        string code,
        string pointer
    ) => Assert.Contains((code, pointer), Problems(SiteFormat.Procedure, Procedure, right, wrong));

    [Fact]
    public void Read_CertificateAlone_SaysWhenItWasInspected()
    {
        string alone = Procedure.Replace("\"inspectedOn\": \"2026-02-10\", ", "", StringComparison.Ordinal);

        var procedure = Read(SiteFormat.Procedure, alone);

        Assert.Null(procedure.InspectedOn);
        Assert.Equal(new DateOnly(2026, 2, 10), procedure.LastInspected);
    }

    [Fact]
    public void Read_Context_KeepsRegistersAndWhereabouts()
    {
        var context = Read(ContextFormat.Current, Context);

        Assert.Equal((true, true), (context.People[0].StatesCovers, context.People[1].StatesCovers));
        Assert.Empty(context.People[1].Covers);
        Assert.Equal(Employer.Outside, context.People[0].Employer);
        Assert.Equal(
            ["LockElsewhere", "PersonElsewhere"],
            context.Elsewhere.Select(one => one.GetType().Name)
        );
        Assert.Equal("P-90", context.RemovalException!.Id);
        ComesBack(ContextFormat.Current, Context);
    }

    [Theory]
    [InlineData(
        "{ \"lock\": \"L-1\", ",
        "{ \"lock\": \"L-1\", \"person\": \"tech-01\", ",
        "name.missing",
        "/elsewhere/0"
    )]
    [InlineData("\"outside\"", "\"nobody\"", "value.choice", "/people/0/employer")]
    [InlineData(
        "\"sources\": [{ \"id\": \"spark\", \"title\": \"Spark\", \"proof\": \"lead off\" }]",
        "\"sources\": []",
        "list.length",
        "/machines/0/sources"
    )]
    [InlineData("T16:00:00+01:00", "T06:00:00+01:00", "value.contradiction", "/attendance/0/until")]
    [InlineData("T08:00:00+01:00", "T08:00:00+03:00", "value.contradiction", "/elsewhere/1/until")]
    public void Read_ContextWithOneThingWrong_IsToldWhereItStands(
        string right,
        string wrong,
        string code,
        string pointer
    ) => Assert.Contains((code, pointer), Problems(ContextFormat.Current, Context, right, wrong));

    [Fact]
    public void Read_Citations_KeepsRowsClausesAndStanding()
    {
        var citations = Read(RulePackFormat.Citations, Citations).Citations;

        Assert.Equal("147.c.9.before", Assert.Single(citations[0].Rows));
        Assert.Equal("1 2", string.Join(' ', citations[1].Clauses));
        Assert.Equal(CitationStanding.FromMemory, citations[1].Standing);
        ComesBack(RulePackFormat.Citations, Citations);
    }

    [Theory]
    [InlineData("\"text-read\"", "\"certain\"", "value.choice", "/citations/0/standing")]
    [InlineData("[\"(c)(9)\"]", "[]", "list.length", "/citations/0/clauses")]
    public void Read_CitationsWithOneThingWrong_IsToldWhereItStands(
        string right,
        string wrong,
        string code,
        string pointer
    ) => Assert.Contains((code, pointer), Problems(RulePackFormat.Citations, Citations, right, wrong));

    [Fact]
    public void Read_ExemptionClaimedWithoutItsClaim_IsRefused()
    {
        const string bare =
            """{ "event": "exemption_claimed", "at": "2026-04-13T08:11:00+01:00", "by": "tech-01" }""";
        string text = SampleRecord.Text.Replace(
            "\"timeline\": [",
            "\"timeline\": [" + bare + ",",
            StringComparison.Ordinal
        );

        Assert.False(
            RecordFormat.Current.Read(Encoding.UTF8.GetBytes(text)).TryGet(out _, out _, out var problems)
        );
        Assert.Contains(problems.Told, problem => problem.Pointer == "/timeline/0/event");
    }

    /// <summary>What an entry of its kind cannot mean would be read by nobody.</summary>
    [Theory]
    [InlineData("work_started", "\"claim\": { \"kind\": \"cord-and-plug\" }", "claim")]
    [InlineData("work_started", "\"lock\": \"L-1\"", "lock")]
    [InlineData("machine_shut_down", "\"position\": \"off\"", "position")]
    [InlineData("work_started", "\"measures\": [\"engine-off\"]", "measures")]
    [InlineData("area_inspected", "\"count\": 2", "count")]
    public void Read_EventWithWhatItsKindDoesNotTake_IsRefusedWhereItStands(
        string kind,
        string member,
        string name
    )
    {
        string entry =
            $$"""{ "event": "{{kind}}", "at": "2026-04-13T08:11:00+01:00", "by": "tech-01", {{member}} }""";
        string text = SampleRecord.Text.Replace(
            "\"timeline\": [",
            "\"timeline\": [" + entry + ",",
            StringComparison.Ordinal
        );

        Assert.False(
            RecordFormat.Current.Read(Encoding.UTF8.GetBytes(text)).TryGet(out _, out _, out var problems)
        );
        var problem = Assert.Single(problems.Told);
        Assert.Equal($"/timeline/0/{name}", problem.Pointer);
        Assert.Contains($"no `{name}`", problem.Accepted, StringComparison.Ordinal);
    }

    private static T Read<T>(DocumentFormat<T> format, string text)
        where T : notnull
    {
        bool isRead = format.Read(Encoding.UTF8.GetBytes(text)).TryGet(out T? value, out _, out var problems);
        Assert.True(isRead, string.Join('\n', problems.Told.Select(problem => problem.ToString())));
        return value!;
    }

    private static void ComesBack<T>(DocumentFormat<T> format, string text)
        where T : notnull
    {
        byte[] written = format.Write(Read(format, text));
        Assert.True(
            JsonNode.DeepEquals(JsonNode.Parse(text), JsonNode.Parse(written)),
            Encoding.UTF8.GetString(written)
        );
    }

    private static IEnumerable<(string Code, string Pointer)> Problems<T>(
        DocumentFormat<T> format,
        string text,
        string right,
        string wrong
    )
        where T : notnull
    {
        Assert.Contains(right, text, StringComparison.Ordinal);
        int at = text.IndexOf(right, StringComparison.Ordinal);
        string spoilt = text[..at] + wrong + text[(at + right.Length)..];
        Assert.False(
            format.Read(Encoding.UTF8.GetBytes(spoilt)).TryGet(out _, out _, out var problems),
            "it was read"
        );
        return problems.Told.Select(problem => (problem.Code, problem.Pointer));
    }
}
